package job

import (
	"encoding/json"
	"errors"
	"fmt"
)

// Limits of an operation.
const (
	MaxOpBytes     = 64 << 10 // of one operation as JSON
	MaxEntityBytes = 160
	MaxFieldBytes  = 64
	MaxCovers      = 2000
	maxParentBytes = 40
	maxDelta       = 100000 // of one addition
)

// ErrInvalid marks an operation that no version could apply.
var ErrInvalid = errors.New("operation not valid")

// Check reports whether the operation is well formed and its value is allowed in its field. Unknown kinds, nouns and
// fields pass: an older server accepts those of a newer phone. The error wraps [ErrInvalid].
func (o Op) Check() error {
	if err := o.check(); err != nil {
		return fmt.Errorf("%w: %w", ErrInvalid, err)
	}
	return nil
}

func (o Op) check() error {
	switch {
	case len(o.ID) < 8 || len(o.ID) > 40 || !ValidID(o.ID):
		return fault("i", "an operation needs an id of 8 to 40 letters and digits")
	case !ValidID(o.Device):
		return fault("d", "an operation needs its device")
	case o.Number == 0:
		return fault("n", "operations are numbered from 1")
	case o.Kind == "" || len(o.Kind) > 40 || o.Kind == Emptied:
		return fault("k", "an operation needs a kind")
	case o.Entity == "" || len(o.Entity) > MaxEntityBytes:
		return fault("e", "the entity may have 1 to %d bytes", MaxEntityBytes)
	case len(o.Field) > MaxFieldBytes:
		return fault("f", "the field may have up to %d bytes", MaxFieldBytes)
	case !plainText(string(o.Kind) + o.Entity + o.Field):
		return fault("e", "kind, entity and field hold no control characters")
	case len(o.Parents) > 2:
		return fault("p", "an operation has up to 2 parents")
	}
	for _, id := range o.Parents {
		if len(id) > maxParentBytes {
			return fault("p", "the id of a parent may have up to %d bytes", maxParentBytes)
		}
	}
	if err := checkValue(o.Value); err != nil {
		return fault("v", "%v", err)
	}
	switch o.Kind {
	case Set:
		return checkSet(o.Entity, o.Field, o.Value)
	case Add:
		if o.Delta == 0 || o.Delta > maxDelta || o.Delta < -maxDelta {
			return fault("dx", "one addition is from %d to %d and not 0", -maxDelta, maxDelta)
		}
	case Undo:
		if !ValidID(o.Field) {
			return fault("f", "an undo names the operation it takes back")
		}
	case Stocktake:
		return checkCounted(o.Value)
	}
	return nil
}

// checkValue reports whether a value of any kind is JSON that every phone can decode.
func checkValue(value json.RawMessage) error {
	if len(value) == 0 {
		return nil
	}
	if len(value) > MaxOpBytes {
		return fmt.Errorf("the value may have up to %d bytes", MaxOpBytes)
	}
	if err := ScanJSON(value, MaxDepth); err != nil {
		return err
	}
	if !json.Valid(value) {
		return errors.New("the value is not JSON")
	}
	return nil
}

// Harmless reports whether a phone can safely decode the operation, known or not: its texts are short and its value
// passes [ScanJSON]. Only an older build accepted others; they are neither decoded further nor folded.
func (o Op) Harmless() bool {
	parents := 0
	for _, id := range o.Parents {
		parents += len(id)
	}
	const longest = 4 * MaxEntityBytes
	return len(o.ID) <= longest && len(o.Device) <= longest && len(o.Kind) <= longest && len(o.Entity) <= longest &&
		len(o.Field) <= longest && parents <= longest && len(o.Value) <= MaxOpBytes && ScanJSON(o.Value, MaxDepth) == nil
}

func checkCounted(raw json.RawMessage) error {
	var c Counted
	if err := json.Unmarshal(raw, &c); err != nil {
		return fault("v", "a stocktake needs a count")
	}
	if c.N < 0 || c.N > 1000000 {
		return fault("v", "a count is from 0 to 1000000")
	}
	if len(c.Covers) > MaxCovers {
		return fault("v", "a stocktake covers up to %d additions", MaxCovers)
	}
	return nil
}

func checkSet(entity, field string, value json.RawMessage) error {
	if field == "" {
		return fault("f", "a set names its field")
	}
	if noun, known := FindNoun(entity); known {
		if f, known := noun.Field(field); known {
			return f.Check(value)
		}
		return nil
	}
	if IsProgress(entity) {
		return checkIn(progressFields, field, value)
	}
	if op, is := AsideOf(entity); is {
		if !ValidID(op) {
			return fault("e", "setting aside names an operation by its id")
		}
		return checkIn(asideFields, field, value)
	}
	return nil
}

func checkIn(fields []Field, field string, value json.RawMessage) error {
	if f, known := fieldNamed(fields, field); known {
		return f.Check(value)
	}
	return nil
}

var progressFields = []Field{
	{Name: "done", Label: "Done", Kind: Flag, Default: "false"},
	{Name: "have", Label: "Packed", Kind: Whole, Max: 1e6, Default: "0"},
	{Name: "bought", Label: "Bought", Kind: Whole, Max: 1e6, Default: "0"},
	{Name: "unneeded", Label: "Not needed", Kind: Flag, Default: "false"},
	{Name: "back", Label: "Back in the car", Kind: Whole, Max: 1e6, Default: "0"},
	{Name: "stands", Label: "What a tick stands for", Kind: LongText, Max: 20000},
	{Name: "taken", Label: "Taken by", Kind: Text, Max: 60, Help: "Who does this card."},
	{Name: "minutes", Label: "Minutes", Kind: Number, Max: 1440, Default: "null",
		Help: "For one person. Empty: from the table."},
	{Name: "hands", Label: "Hands", Kind: Whole, Min: 1, Max: 20, Default: "null"},
	{Name: "took", Label: "Took, minutes", Kind: Number, Min: 1, Max: 1440, Default: "null",
		Help: "By the clock, with as few hands as it needs."},
	{Name: "note", Label: "Note on the card", Kind: LongText, Max: 4000},
}

// ProgressFields are the registers of pack lines and cards: what was done, and what a lead changed on a card.
func ProgressFields() []Field { return progressFields }

// CheckChange reports whether a change would make a valid operation, as a [*FieldError] naming the field.
func CheckChange(c Change) error {
	probe := Op{ID: "00000000", Device: "probe", Number: 1, Version: Version, Kind: c.Kind, Entity: c.Entity,
		Field: c.Field, Value: c.Value, Delta: c.Delta}
	if probe.Kind == "" {
		probe.Kind = Set
	}
	return probe.check()
}
