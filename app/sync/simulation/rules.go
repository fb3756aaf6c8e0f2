package simulation

import (
	"strings"
	stdsync "sync"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/server"
)

// Rule is a rule that the code under test may not keep yet. Until it does, a run skips the rule's check, and its test
// says so.
type Rule string

// The rules. [Unkept] probes app/sync for the first three; [Options.Pending] names those of the others that a server
// does not keep.
const (
	Depth           Rule = "values are nested 64 deep at most"
	OwnKinds        Rule = "only the owner's devices send unknown kinds"
	BoundDevices    Rule = "a device id belongs to the first session that used it"
	ClosingsOutlive Rule = "a closed link stays closed after a restore"
	HeldOutlives    Rule = "the quarantine survives an announced restore"
	ThirtyDays      Rule = "an archived job closes to its helpers after thirty days"
)

// maxDepth is how deep a value may be nested.
const maxDepth = 64

// nested returns a value nested depth deep.
func nested(depth int) []byte {
	return []byte(strings.Repeat("[", depth) + strings.Repeat("]", depth))
}

// depthOf returns how deep a value is nested. It shares no code with app/job.
func depthOf(value []byte) int {
	depth, most, inText, escaped := 0, 0, false, false
	for _, c := range value {
		switch {
		case escaped:
			escaped = false
		case inText:
			escaped, inText = c == '\\', c != '"'
		case c == '"':
			inText = true
		case c == '[' || c == '{':
			depth++
			most = max(most, depth)
		case c == ']' || c == '}':
			depth--
		}
	}
	return most
}

// Unkept lists the rules that app/sync does not keep yet.
var Unkept = stdsync.OnceValue(func() []Rule {
	deep := probe("wave", "probe1", 1)
	deep.Value = nested(maxDepth + 1)
	var unkept []Rule
	for _, p := range []struct {
		rule Rule
		ops  []job.Op // the last one must be refused
	}{
		{Depth, []job.Op{deep}},
		{OwnKinds, []job.Op{probe("wave", "probe1", 1)}},
		{BoundDevices, []job.Op{probe(job.Add, "probe1", 1), probe(job.Add, "probe1", 2)}},
	} {
		if !refuses(p.rule, p.ops) {
			unkept = append(unkept, p.rule)
		}
	}
	return unkept
})

func probe(kind job.Kind, device string, number uint64) job.Op {
	return job.Op{ID: "operation" + string(rune('0'+number)), Device: device, Number: number, Version: 1,
		Kind: kind, Entity: "card/make/probe", Field: "", Delta: 1, Wall: start}
}

// refuses sends each operation from another helper, or from the owner to probe [Depth]. It reports whether the last one
// was refused.
func refuses(rule Rule, ops []job.Op) bool {
	ledger := memory.New("probe", "epoch", []byte("key"), start)
	last := sync.OK
	for i, op := range ops {
		id := "link" + string(rune('0'+i))
		role := job.Helper
		if rule == Depth {
			role = job.Owner
		}
		session := server.Session{ID: id, Author: job.Author{Role: role, Link: id}}
		resp, err := server.Serve(ledger, session,
			sync.Request{V: sync.WireVersion, Device: op.Device, Now: start, Ops: []job.Op{op}}, start)
		if err != nil || len(resp.Acks) != 1 {
			return err != nil
		}
		last = resp.Acks[0].Result
	}
	return last != sync.OK
}

// kept reports whether this run checks a rule. It always checks a rule that the sabotage breaks.
func (w *world) kept(r Rule) bool {
	if r == Depth && w.options.Sabotage == NoDepth {
		return true
	}
	for _, unkept := range Unkept() {
		if unkept == r {
			return false
		}
	}
	return !w.options.pending(r)
}
