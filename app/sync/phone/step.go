package phone

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"garlandry/app/job"
)

// Row is one entry of the phone's storage: a text key and a JSON value.
type Row struct {
	Key   string
	Value []byte
}

// Range is the keys from From up to, but not with, To.
type Range struct{ From, To string }

// Has reports whether the key lies in the range.
func (r Range) Has(key string) bool { return r.From <= key && key < r.To }

// Step is what one action of a [Phone] writes: all of it in one transaction of the phone's storage, or nothing. In the
// same transaction, check that the [RowPhone] row has revision If (0: none yet). If not, a second tab was faster. Then,
// and whenever the transaction fails, throw the Phone away and open a new one from storage.
type Step struct {
	If, Rev uint64
	Drop    []Range // deleted first
	Delete  []string
	Put     []Row
}

// Empty reports whether there is nothing to write.
func (s Step) Empty() bool { return s.Rev == 0 }

// Rows of the phone's storage. The keys sort in the order the rows were made.
//
//	phone                    who this phone is: device, counters, revision
//	handed/LOG               the server's last answer to something sent over a closed link
//	log/LOG                  how far a log was read
//	out/LOG/ORDER            an operation that is not in the log yet
//	note/LOG/ORDER           something that needs a person's attention
//	snap/LOG                 the folded state of a log up to some sequence
//	rec/LOG/GENERATION/SEQ   an accepted record
const RowPhone = "phone"

// OpenRanges lists what to read for [Open].
func OpenRanges() []Range {
	return []Range{prefix("handed/"), prefix("log/"), prefix("note/"), prefix("out/"), {RowPhone, RowPhone + "\x00"}}
}

// Revision reads the revision from the [RowPhone] row's value, 0 if there is none.
func Revision(value []byte) uint64 {
	var row phoneRow
	if json.Unmarshal(value, &row) != nil {
		return 0
	}
	return row.Rev
}

func prefix(p string) Range { return Range{p, p[:len(p)-1] + string(p[len(p)-1]+1)} }

func keyHanded(log string) string                 { return "handed/" + log }
func keyLog(log string) string                    { return "log/" + log }
func keySnap(log string) string                   { return "snap/" + log }
func keyOut(log string, order uint64) string      { return fmt.Sprintf("out/%s/%012d", log, order) }
func keyNote(log string, order uint64) string     { return fmt.Sprintf("note/%s/%012d", log, order) }
func keyGeneration(log string, gen uint64) string { return fmt.Sprintf("rec/%s/%06d/", log, gen) }
func keyRec(log string, gen, seq uint64) string {
	return fmt.Sprintf("%s%012d", keyGeneration(log, gen), seq)
}

// logOfKey returns the log that an out, note or log row belongs to.
func logOfKey(key string) string {
	_, rest, _ := strings.Cut(key, "/")
	log, _, _ := strings.Cut(rest, "/")
	return log
}

// storedDepth is how deep a row of the storage nests: a value, and the folded state around it.
const storedDepth = job.MaxDepth + 10

// decodeRow reads a row of the storage. A value that could crash this build, stored by an older one, is an error.
func decodeRow(row Row, into any) error {
	if err := job.ScanJSON(row.Value, storedDepth); err != nil {
		return err
	}
	return json.Unmarshal(row.Value, into)
}

// writing gathers a step.
type writing struct {
	step Step
	err  error
}

func (w *writing) put(key string, value any) {
	raw, err := json.Marshal(value)
	if err != nil {
		w.err = fmt.Errorf("write row %s: %w", key, err)
		return
	}
	w.step.Put = append(w.step.Put, Row{key, raw})
}

// delete removes a row from the storage, even one that this step has put.
func (w *writing) delete(key string) {
	w.step.Put = slices.DeleteFunc(w.step.Put, func(r Row) bool { return r.Key == key })
	w.step.Delete = append(w.step.Delete, key)
}
func (w *writing) drop(r Range) { w.step.Drop = append(w.step.Drop, r) }
