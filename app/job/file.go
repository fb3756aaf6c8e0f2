package job

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
)

// MaxFileBytes is the largest job file that is read.
const MaxFileBytes = 4 << 20

// ErrNewer says that a job file comes from a newer version of the program.
var ErrNewer = errors.New("the job file was written by a newer version; update first, nothing was changed")

// maxMade is the most made on one card in a file, as many as a person may count.
const maxMade = 1000000

// progressEntry is the progress of one card or pack line, in a job file.
type progressEntry struct {
	Key      string `json:"key"`
	Have     *int   `json:"have,omitempty"`
	Bought   *int   `json:"bought,omitempty"`
	Unneeded *bool  `json:"unneeded,omitempty"`
	Done     *bool  `json:"done,omitempty"`
	Made     *int   `json:"made,omitempty"`
}

// EncodeFile writes the job as an indented JSON job file: its design and its progress, not its history. The client
// contact is in it only if the job has one. [DecodeFile] reads every file written: a removed entity that a piece still
// names is there as removed, and a time that contradicts an earlier one is left out.
func EncodeFile(j Job) ([]byte, error) {
	file := map[string]any{"garlandry": Version}
	named := named(j)
	for _, n := range filed() {
		state := j.State
		if n.Private {
			state = j.Private
		}
		if n.Single {
			fields := filled(state, n, n.Name)
			if n == &briefNoun {
				for _, fault := range j.Brief.CheckTogether() {
					delete(fields, fault.Path)
				}
			}
			if len(fields) > 0 {
				require(fields, n, n.Label)
				file[n.InFile] = fields
			}
			continue
		}
		var entries []map[string]json.RawMessage
		for _, entity := range j.written(n, state, named) {
			fields, id := state.whole(n, entity), strings.TrimPrefix(entity, n.Name+"/")
			if n.fits(id) { // DecodeFile gives the others an id
				fields["id"] = quoted(id)
			}
			entries = append(entries, fields)
		}
		if len(entries) > 0 {
			file[n.InFile] = entries
		}
	}
	if progress := j.progress(); len(progress) > 0 {
		file["progress"] = progress
	}
	data, err := json.MarshalIndent(file, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("write job file: %w", err)
	}
	return append(data, '\n'), nil
}

// gasOf says what bouquets are filled with where nothing does. A stored piece without a gas is filled with air, as it
// was before; bouquets on ribbons in a file without a gas float.
func gasOf(fields map[string]json.RawMessage, gas string) {
	if string(fields["kind"]) == `"bouquets"` && (fields["gas"] == nil || string(fields["gas"]) == "null") {
		fields["gas"] = quoted(gas)
	}
}

// builtOf says where walls and columns are built where nothing does. A stored piece that does not say is built at home,
// as it was before; one in a file is built at the venue, because few cars take it.
func builtOf(fields map[string]json.RawMessage, place string) {
	kind := string(fields["kind"])
	if (kind == `"wall"` || kind == `"column"`) && (fields["built"] == nil || string(fields["built"]) == "null") {
		fields["built"] = quoted(place)
	}
}

// require fills required fields that are not set with the text.
func require(fields map[string]json.RawMessage, n *Noun, text string) {
	for i := range n.Fields {
		if f := &n.Fields[i]; f.Required && f.Default == "" && fields[f.Name] == nil {
			fields[f.Name] = quoted(text)
		}
	}
}

func quoted(text string) json.RawMessage { return Put("", "", text).Value }

func filled(s *State, n *Noun, entity string) map[string]json.RawMessage {
	fields := map[string]json.RawMessage{}
	for _, f := range n.Fields {
		if v := s.Register(entity, f.Name).Value(); len(v) > 0 && string(v) != "null" && f.Check(v) == nil {
			fields[f.Name] = v
		}
	}
	return fields
}

func (j Job) progress() []progressEntry {
	byKey := map[string]*progressEntry{}
	at := func(key string) *progressEntry {
		if byKey[key] == nil {
			byKey[key] = &progressEntry{Key: key}
		}
		return byKey[key]
	}
	for _, noun := range []string{packNoun, cardNoun} {
		for _, key := range j.State.Entities(noun) {
			if have := j.Packed(key); have > 0 {
				at(key).Have = &have
			}
			if bought := j.Bought(key); bought > 0 {
				at(key).Bought = &bought
			}
			if unneeded := true; j.Unneeded(key) {
				at(key).Unneeded = &unneeded
			}
			if j.Done(key) {
				done := true
				at(key).Done = &done
			}
		}
	}
	for key := range j.State.Tallies {
		if made := min(j.Made(key), maxMade); made > 0 {
			at(key).Made = &made
		}
	}
	var all []progressEntry
	for _, key := range sortedKeys(byKey) {
		all = append(all, *byKey[key])
	}
	return all
}

// DecodeFile reads a job file into the changes that make the job. An error is [ErrNewer] or a [*FieldError] that names
// the place and the allowed range.
func DecodeFile(data []byte) ([]Change, error) {
	if len(data) > MaxFileBytes {
		return nil, fault("file", "a job file has up to %d MB; this has %d bytes", MaxFileBytes>>20, len(data))
	}
	if err := ScanJSON(data, MaxDepth); err != nil {
		return nil, fault("file", "not a JSON job file: %v", err)
	}
	var file map[string]json.RawMessage
	if err := json.Unmarshal(data, &file); err != nil {
		return nil, fault("file", "not a JSON job file: %v", describe(err))
	}
	var version int
	if json.Unmarshal(file["garlandry"], &version) != nil || version < 1 {
		return nil, fault("garlandry", `a job file begins with "garlandry": %d`, Version)
	}
	if version > Version {
		return nil, ErrNewer
	}
	delete(file, "garlandry")
	r := fileReader{ids: map[string]bool{}}
	for _, n := range filed() {
		if raw, there := file[n.InFile]; there {
			if err := r.noun(n, raw); err != nil {
				return nil, err
			}
			delete(file, n.InFile)
		}
	}
	if raw, there := file["progress"]; there {
		if err := r.progress(raw); err != nil {
			return nil, err
		}
		delete(file, "progress")
	}
	for _, key := range sortedKeys(file) {
		return nil, fault(key, "is not part of a job file; known are %s", fileKeys())
	}
	return r.finish()
}

func fileKeys() string {
	keys := []string{"garlandry", "progress"}
	for _, n := range filed() {
		keys = append(keys, n.InFile)
	}
	slices.Sort(keys)
	return strings.Join(keys, ", ")
}

// notAnObject is the message for JSON that is no job.
const notAnObject = `a job file is one object that begins with {"garlandry": 1}; ` +
	`open a job and choose “Save as a file” to get one`

func describe(err error) error {
	if _, is := errors.AsType[*json.UnmarshalTypeError](err); is {
		return errors.New(notAnObject)
	}
	if syntax, is := errors.AsType[*json.SyntaxError](err); is {
		return fmt.Errorf("at byte %d: %w", syntax.Offset, err)
	}
	return err
}

type fileReader struct {
	changes []Change
	ids     map[string]bool // entities seen
}

func (r *fileReader) noun(n *Noun, raw json.RawMessage) error {
	if n.Single {
		var fields map[string]json.RawMessage
		if json.Unmarshal(raw, &fields) != nil {
			return fault(n.InFile, "must be an object")
		}
		return r.entity(n, n.Name, n.InFile, fields)
	}
	var entries []map[string]json.RawMessage
	if json.Unmarshal(raw, &entries) != nil {
		return fault(n.InFile, "must be a list of objects")
	}
	if len(entries) > 1000 {
		return fault(n.InFile, "may have up to 1000 entries; this has %d", len(entries))
	}
	for i, fields := range entries {
		path := fmt.Sprintf("%s[%d]", n.InFile, i)
		if fields == nil {
			return fault(path, "must be an object")
		}
		id := fmt.Sprintf("%s-%d", n.Name, i+1)
		if given, there := fields["id"]; there {
			if json.Unmarshal(given, &id) != nil || !n.fits(id) {
				return fault(path+".id", "%s", n.fitting())
			}
			delete(fields, "id")
		}
		if n == &pieceNoun {
			gasOf(fields, "helium")
			builtOf(fields, "site")
		}
		if _, there := fields["order"]; !there {
			fields["order"] = json.RawMessage(fmt.Sprint(i + 1))
		}
		if err := r.entity(n, n.Name+"/"+id, path, fields); err != nil {
			return err
		}
	}
	return nil
}

// Keyed reports whether the noun's ids are plan keys, which may have several parts.
func (n *Noun) Keyed() bool { return n == &overrideNoun || n == &choiceNoun || n == &pricesNoun }

// fits reports whether an entity of the noun can have the id.
func (n *Noun) fits(id string) bool {
	if !n.Keyed() {
		return ValidID(id) && !(n == &pieceNoun && id == "new")
	}
	for _, part := range strings.Split(id, "/") {
		if !ValidID(part) {
			return false
		}
	}
	return len(id) <= 120
}

func (n *Noun) fitting() string {
	switch {
	case n.Keyed():
		return "must be 1 to 120 letters, digits, dashes, underscores or slashes"
	case n == &pieceNoun:
		return "must be 1 to 40 letters, digits, dashes or underscores, and not “new”"
	}
	return "must be 1 to 40 letters, digits, dashes or underscores"
}

func (r *fileReader) entity(n *Noun, entity, path string, fields map[string]json.RawMessage) error {
	if r.ids[entity] {
		return fault(path+".id", "is used twice")
	}
	r.ids[entity] = true
	for _, name := range sortedKeys(fields) {
		f, known := n.Field(name)
		if !known {
			return fault(path+"."+name, "is not a field of %s", strings.ToLower(n.Label))
		}
		if err := f.Check(fields[name]); err != nil {
			field, _ := errors.AsType[*FieldError](err)
			return fault(path+"."+name, "%s", field.Message)
		}
		var compact bytes.Buffer
		if err := json.Compact(&compact, fields[name]); err != nil {
			return fault(path+"."+name, "is not JSON")
		}
		r.changes = append(r.changes, Change{Kind: Set, Entity: entity, Field: name, Value: compact.Bytes()})
	}
	for _, f := range n.Fields {
		if _, given := fields[f.Name]; f.Required && f.Default == "" && !given {
			return fault(path+"."+f.Name, "is needed")
		}
	}
	var piece string
	if n == &layerNoun && (json.Unmarshal(fields["piece"], &piece) != nil || !r.ids["piece/"+piece]) {
		return fault(path+".piece", "there is no piece %q", piece)
	}
	return nil
}

func (r *fileReader) progress(raw json.RawMessage) error {
	var entries []progressEntry
	decoder := json.NewDecoder(bytes.NewReader(raw))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&entries); err != nil {
		const want = `must be a list such as [{"key":"card/...","done":true,"made":12}]`
		if _, is := errors.AsType[*json.UnmarshalTypeError](err); is {
			return fault("progress", want)
		}
		return fault("progress", want+": %v", err)
	}
	if len(entries) > 5000 {
		return fault("progress", "may have up to 5000 entries")
	}
	for i, e := range entries {
		path := fmt.Sprintf("progress[%d]", i)
		if !IsProgress(e.Key) || len(e.Key) > MaxEntityBytes {
			return fault(path+".key", "must begin with pack/ or card/")
		}
		before := len(r.changes)
		if e.Have != nil {
			r.changes = append(r.changes, Put(e.Key, "have", *e.Have))
		}
		if e.Bought != nil {
			r.changes = append(r.changes, Put(e.Key, "bought", *e.Bought))
		}
		if e.Unneeded != nil {
			r.changes = append(r.changes, Put(e.Key, "unneeded", *e.Unneeded))
		}
		if e.Done != nil {
			r.changes = append(r.changes, Put(e.Key, "done", *e.Done))
		}
		if e.Made != nil {
			if *e.Made < -maxMade || *e.Made > maxMade {
				return fault(path+".made", "must be from %d to %d", -maxMade, maxMade)
			}
			r.changes = append(r.changes, Counts(e.Key, int64(*e.Made))...)
		}
		for _, c := range r.changes[before:] {
			if err := CheckChange(c); err != nil {
				return fault(path, "%v", err)
			}
		}
	}
	return nil
}

// finish checks what needs the whole file: references, and times that contradict each other.
func (r *fileReader) finish() ([]Change, error) {
	j := Preview(r.changes)
	if faults := j.Brief.CheckTogether(); len(faults) > 0 {
		return nil, fault("brief."+faults[0].Path, "%s", faults[0].Message)
	}
	for i, k := range j.Kit {
		if k.Frame != "" && !r.ids["kit/"+k.Frame] {
			return nil, fault(fmt.Sprintf("kit[%d].frame", i), "there is no %q in the kit", k.Frame)
		}
	}
	for i, p := range j.Pieces {
		path := fmt.Sprintf("pieces[%d]", i)
		if err := r.inPalette(path, append(append([]Share{}, p.Colours...), p.AccentShares...)); err != nil {
			return nil, err
		}
		for _, c := range p.Counts {
			if !r.ids["colour/"+c.Colour] {
				return nil, fault(path+".counts", "there is no colour %q in the palette", c.Colour)
			}
		}
		if p.Frame != "" && !r.ids["kit/"+p.Frame] {
			return nil, fault(path+".frame", "there is no %q in the kit", p.Frame)
		}
	}
	for i := range j.Layers {
		if err := r.inPalette(fmt.Sprintf("layers[%d]", i), j.Layers[i].Shares); err != nil {
			return nil, err
		}
	}
	return r.changes, nil
}

// inPalette checks the colours of shares.
func (r *fileReader) inPalette(path string, shares []Share) error {
	for _, s := range shares {
		if !r.ids["colour/"+s.Colour] {
			return fault(path+".colours", "there is no colour %q in the palette", s.Colour)
		}
	}
	return nil
}

// Preview returns the job that the changes alone would make: to read a job file on the command line, and to check one
// before it is imported.
func Preview(changes []Change) Job {
	shared, private := NewState(), NewState()
	for i, c := range changes {
		rec := Rec{
			Op: Op{ID: fmt.Sprintf("change-%08d", i), Device: "file", Number: uint64(i + 1), Version: Version, Kind: c.Kind,
				Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta},
			Effective: int64(i + 1),
		}
		if Private(c.Entity) {
			private.Apply(rec)
		} else {
			shared.Apply(rec)
		}
	}
	return Read("", shared, private)
}
