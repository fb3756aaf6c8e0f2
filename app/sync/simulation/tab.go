package simulation

import (
	"errors"
	"fmt"
	"sort"
	"strconv"

	"garlandry/app/sync/phone"
)

// Errors that stop a tab's action before its commit.
var (
	errBeaten  = errors.New("another tab was faster")
	errRefused = errors.New("the storage refuses")
)

// noToken matches no storage, so that the tab loads before it writes.
const noToken = "none"

// attempts limits how often a tab retries after another tab's commit.
const attempts = 6

// open starts a tab and replays the journal. The tab stays closed if the storage refuses.
func (w *world) open(t *tab) error {
	if t.phone != nil {
		if t.news && w.chance(60) { // else it acts before the message arrives
			return w.load(t)
		}
		return nil
	}
	if err := w.load(t); err != nil || t.phone == nil {
		return err
	}
	return w.replay(t)
}

// load reads the storage range by range: another tab may write in between. It reads the token first, so that no commit
// succeeds after a torn load. It writes back what the tab holds and the storage has lost.
func (w *world) load(t *tab) error {
	before := *t
	for range attempts {
		d := t.on.disk
		t.token, t.news = d.token, false
		t.posts = map[string]bool{} // read before the outbox, which then holds the operations of every form read here
		for _, row := range d.read(phone.Range{From: "post/", To: "post0"}) {
			t.posts[row.Key] = true
		}
		var rows []phone.Row
		for _, r := range phone.OpenRanges() {
			rows = append(rows, d.read(r)...)
			w.tear(t)
		}
		if w.options.Sabotage == TokenReadLast {
			t.token = d.token
		}
		p, step, err := phone.Open(rows, w.phoneOptions(t.on))
		if err != nil {
			return fmt.Errorf("open phone %s: %w", t.on.name, err)
		}
		t.phone = p
		w.remember(t)
		fresh := d.rows[phone.RowPhone] == nil
		if t.token == "" && !fresh { // torn: a storage that is emptied later would have the same token
			continue
		}
		switch w.commit(t, step, nil) {
		case stale:
			continue
		case refused:
			t.goBack(before) // a running tab continues from memory
			return nil
		}
		t.on.journal.settle(d) // the app tells its page what is shared whenever the storage has changed
		return w.writeBack(t, before, fresh)
	}
	t.goBack(before)
	return nil
}

// writeBack stores a running tab's operations and forms again after its storage was emptied. Fresh means that no tab
// has written there since.
func (w *world) writeBack(t *tab, before tab, fresh bool) error {
	if before.phone == nil || before.storage == t.on.disk.name || w.options.Sabotage == LoadReplaces {
		return nil
	}
	held := len(before.holds)
	step, err := t.phone.Merge(before.phone, fresh)
	if err != nil {
		return err
	}
	var own []phone.Row
	for _, key := range sortedKeys(before.posts) {
		own = append(own, phone.Row{Key: key, Value: []byte("1")})
	}
	t.on.mixed = true
	got := w.commit(t, step, own)
	if got != done { // the merged phone holds everything; the next load merges it with the storage again
		before.phone = t.phone
		t.goBack(before)
	}
	switch got {
	case stale:
		return w.load(t)
	case refused:
		return nil
	}
	w.result[WroteBack] += held
	w.note("phone %s writes back what it held: %d that wait", t.on.name, held)
	return nil
}

// do runs an action and commits its step. If another tab was faster it reloads and retries; if the storage refuses it
// returns to the stored state.
func (w *world) do(t *tab, act func() (phone.Step, []phone.Row, error)) (verdict, error) {
	for range attempts {
		t.draft = nil
		step, own, err := act()
		var got verdict
		switch {
		case errors.Is(err, errBeaten):
			got = stale
		case errors.Is(err, errRefused):
			got = refused
		case err != nil:
			return refused, err
		default:
			got = w.commit(t, step, own)
		}
		t.draft = nil
		switch got {
		case done:
			if !step.Empty() {
				w.tellOthers(t)
			}
			return done, nil
		case refused:
			return refused, w.load(t)
		}
		w.result[Conflicts]++
		w.note("phone %s: another tab was faster", t.on.name)
		if err := w.load(t); err != nil {
			return stale, err
		}
		if t.phone == nil {
			return refused, nil
		}
	}
	return stale, nil
}

// commit writes a tab's step. If the answer is lost, it tries the same commit again on a new handle.
func (w *world) commit(t *tab, step phone.Step, own []phone.Row) verdict {
	if step.Empty() {
		return done
	}
	d := t.on.disk
	w.checkDepth(t, step)
	c := commit{t.token, w.token(t), step, own}
	try := func() verdict {
		before := d.rev
		fits := d.token == c.expected && !d.full
		if fits && before != step.If && w.err == nil && w.options.Sabotage != SharedToken {
			w.err = fmt.Errorf("phone %s: a step upon revision %d fits a storage of revision %d", t.on.name, step.If, before)
		}
		got := d.commit(c)
		if got == done && fits {
			w.stored(t)
		}
		return got
	}
	got := try()
	if !w.calm && w.chance(2) {
		w.result[Again]++
		w.meanwhile(t)
		if got = try(); w.chance(10) {
			got = refused // the second answer is lost too
		}
	}
	switch got {
	case done:
		t.token = c.next
		t.phone.Stored()
		w.remember(t)
		for _, row := range own {
			t.posts[row.Key] = true
		}
	case refused:
		w.result[Refused]++
		w.note("phone %s: storage refuses", t.on.name)
	}
	return got
}

// checkDepth ends the run if a phone stores a value so deep that its core crashes whenever it opens the storage.
func (w *world) checkDepth(t *tab, step phone.Step) {
	if !w.deep || w.err != nil {
		return
	}
	for _, row := range step.Put {
		if depthOf(row.Value) > maxDepth+8 { // a row nests its value up to 8 deep
			w.err = fmt.Errorf("phone %s stores a row %d deep, which crashes its core", t.on.name, depthOf(row.Value))
		}
	}
}

// remember records what a tab could write back if its storage were emptied now.
func (w *world) remember(t *tab) {
	t.storage, t.holds = t.on.disk.name, nil
	for _, log := range t.on.logs {
		for _, op := range t.phone.Unsent(log) {
			t.holds = append(t.holds, op.ID)
		}
	}
}

// token returns a unique token for a commit. The sabotage SharedToken uses a plain counter.
func (w *world) token(t *tab) string {
	if w.options.Sabotage == SharedToken {
		n, _ := strconv.Atoi(t.token) // 0 for the first
		return strconv.Itoa(n + 1)
	}
	w.tokens++
	return "t" + strconv.Itoa(w.tokens)
}

// loadLog tracks the log on this phone and loads the rows that the tab needs.
func (w *world) loadLog(t *tab, log string) error {
	write := func(step phone.Step) error {
		switch w.commit(t, step, nil) {
		case stale:
			return errBeaten
		case refused:
			return errRefused
		}
		return nil
	}
	step, err := t.phone.Track(log)
	if err == nil {
		err = write(step)
	}
	if err != nil {
		return err
	}
	for tries := 0; ; tries++ {
		wants := t.phone.Wants(log)
		if len(wants) == 0 {
			return nil
		}
		if tries > 5 {
			return fmt.Errorf("phone %s wants %v again and again", t.on.name, wants)
		}
		var rows []phone.Row
		for _, r := range wants {
			rows = append(rows, t.on.disk.read(r)...)
			w.tear(t)
		}
		step, err := t.phone.Give(log, rows)
		if err != nil {
			return fmt.Errorf("load %s on phone %s: %w", log, t.on.name, err)
		}
		if !step.Empty() {
			w.note("phone %s finds %s incomplete", t.on.name, log)
		}
		if err := write(step); err != nil {
			return err
		}
	}
}

// goBack restores what the tab had in memory before a load.
func (t *tab) goBack(before tab) {
	t.phone, t.token, t.storage, t.holds, t.posts = before.phone, noToken, before.storage, before.holds, before.posts
}

// tear lets another tab write during a load.
func (w *world) tear(t *tab) {
	if !w.calm && len(t.on.tabs) > 1 && w.chance(1.5) && w.meanwhile(t) {
		w.result[Torn]++
	}
}

// meanwhile lets another tab of the phone act. It reports whether that tab wrote.
func (w *world) meanwhile(t *tab) bool {
	if w.nested || w.calm || len(t.on.tabs) < 2 {
		return false
	}
	w.nested = true
	defer func() { w.nested = false }()
	other := t.on.tabs[w.rng.IntN(len(t.on.tabs))]
	if other == t {
		return false
	}
	before := t.on.disk.token
	if err := w.act(other); err != nil && w.err == nil {
		w.err = err
	}
	return t.on.disk.token != before
}

func (w *world) tellOthers(t *tab) {
	for _, other := range t.on.tabs {
		other.news = other.news || other != t
	}
}

// kill ends a tab and loses what only that tab held.
func (w *world) kill(t *tab) {
	if t.phone == nil {
		return
	}
	held := t.holds
	current := t.token == t.on.disk.token
	t.phone, t.holds, t.posts = nil, nil, nil
	t.life++
	if !current {
		sort.Strings(held)
		w.count("a tab was killed", held)
	}
}
