package job

import (
	"encoding/json"
	"slices"
	"strings"
)

// named returns the entities that pieces and kit name: colours and frames, even if removed or never there.
func named(j Job) map[string]bool {
	named := map[string]bool{}
	for i := range j.Kit {
		if frame := j.Kit[i].Frame; frame != "" {
			named["kit/"+frame] = true
		}
	}
	for i := range j.Layers {
		for _, s := range j.Layers[i].Shares {
			named["colour/"+s.Colour] = true
		}
	}
	for i := range j.Pieces {
		p := &j.Pieces[i]
		for _, s := range p.Colours {
			named["colour/"+s.Colour] = true
		}
		for _, s := range p.AccentShares {
			named["colour/"+s.Colour] = true
		}
		for _, c := range p.Counts {
			named["colour/"+c.Colour] = true
		}
		if p.Frame != "" {
			named["kit/"+p.Frame] = true
		}
	}
	return named
}

// written lists the entities of a noun that belong in the job's file, sorted: those in the job, and the named. Layers
// of removed pieces are not among them.
func (j Job) written(n *Noun, s *State, named map[string]bool) []string {
	var all []string
	for _, entity := range s.Entities(n.Name) {
		if !named[entity] && !s.gone(n, entity) && (n != &layerNoun || j.hasLayer(entity)) {
			all = append(all, entity)
		}
	}
	for entity := range named {
		if strings.HasPrefix(entity, n.Name+"/") {
			all = append(all, entity)
		}
	}
	slices.Sort(all)
	return all
}

// hasLayer reports whether a layer is on a piece of the job that keeps its id in a file.
func (j Job) hasLayer(entity string) bool {
	for i := range j.Layers {
		if l := &j.Layers[i]; "layer/"+l.ID == entity {
			return pieceNoun.fits(l.Piece)
		}
	}
	return false
}

// gone reports whether an entity is not in the job: it was removed, or is not complete.
func (s *State) gone(n *Noun, entity string) bool { return s.Removed(entity) || !s.present(entity, n) }

// whole returns the fields of an entity with all that a file needs.
func (s *State) whole(n *Noun, entity string) map[string]json.RawMessage {
	fields := filled(s, n, entity)
	delete(fields, "removed")
	if s.gone(n, entity) {
		fields["removed"] = json.RawMessage("true")
		delete(fields, "frame") // it need not be in the file
	}
	if fields["order"] == nil {
		fields["order"] = json.RawMessage("0")
	}
	require(fields, n, strings.TrimPrefix(entity, n.Name+"/"))
	if n == &pieceNoun {
		gasOf(fields, "air")
		builtOf(fields, "home")
	}
	return fields
}
