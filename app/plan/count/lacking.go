package count

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
)

// Part is what a question means for one of the pieces that it is about.
type Part struct {
	Key   string // choice key of an answer for this piece alone, as earlier versions asked
	Piece string // id
	Where string // "Door garland", "the accents of Door garland"
	How   string // what can be done instead, as a sentence; may be empty
	Pick  string // what is counted
	Own   bool   // answered for this piece alone
	Given bool   // answered at all
}

// ofAccents begins what a [Part] about accents is called.
const ofAccents = "the accents of "

// LackKey is the choice key of the question what to do where a colour does not come in a size. One answer serves all
// pieces.
func LackKey(colour string, sizeIn int) string {
	return "substitute/" + colour + "/" + strconv.Itoa(sizeIn)
}

// answer asks what to do for a part without a size of a colour, in the one question about that colour and size. It
// returns what is counted: the part's own answer, else the answer for all pieces, else the pick until there is one.
func (d *Draft) answer(part Part, colour job.Colour, sizeIn int, options []Option, untilThen string) string {
	key := LackKey(colour.ID, sizeIn)
	own, all := d.Picked(part.Key, options), d.Picked(key, options)
	part.Own, part.Given = own != "", own+all != ""
	part.Pick = cmp.Or(own, all, untilThen)
	at := slices.IndexFunc(d.Notes, func(n Note) bool { return n.Key == key })
	if at < 0 {
		at = len(d.Notes)
		d.Note(Note{Key: key, Kind: "substitute", Piece: part.Piece, Title: colour.Name + " has no " + phrase.Inch(sizeIn)})
	}
	n := &d.Notes[at]
	if slices.ContainsFunc(n.Parts, func(other Part) bool { return other.Key == part.Key }) {
		return part.Pick // another row of typed counts has asked
	}
	if n.Piece != part.Piece {
		n.Piece = ""
	}
	n.Parts = append(n.Parts, part)
	n.Options = joinOptions(n.Options, options)
	n.Picked, n.Settled = pickedOf(n.Parts)
	n.Text = colour.Name + " does not come in " + phrase.Inch(sizeIn) + ", wanted for " + n.wheres() + "." + n.partWords()
	return part.Pick
}

// joinOptions adds options to those of other pieces. Where pieces say the same answer differently, it has a label that
// holds for all.
func joinOptions(list, more []Option) []Option {
	list = slices.Clone(list)
	if len(list) == 0 {
		return more
	}
	for _, o := range more {
		at := slices.IndexFunc(list, func(other Option) bool { return other.Value == o.Value })
		switch {
		case at < 0: // before the last, which keeps the size
			last := len(list) - 1
			list = append(list[:last], o, list[last])
		case list[at].Label != o.Label:
			list[at].Label = "Use its nearest sizes"
		}
	}
	return list
}

// pickedOf returns the answer that all parts have, and whether every part has one.
func pickedOf(parts []Part) (picked string, settled bool) {
	picked, settled = parts[0].Pick, true
	for i := range parts {
		settled = settled && parts[i].Given
		if parts[i].Pick != picked {
			picked = ""
		}
	}
	if !settled {
		picked = ""
	}
	return picked, settled
}

// wheres names the pieces of a question.
func (n *Note) wheres() string {
	names := make([]string, len(n.Parts))
	for i := range n.Parts {
		names[i] = n.Parts[i].Where
	}
	return phrase.And(names)
}

// partWords says what can be done instead and what is counted: once where it is the same for all pieces.
func (n *Note) partWords() string {
	hows, counted := make([]string, len(n.Parts)), make([]string, len(n.Parts))
	for i := range n.Parts {
		part := &n.Parts[i]
		hows[i] = part.How
		switch {
		case !part.Given:
			counted[i] = until(part.Pick)
		case n.Picked == "":
			counted[i] = "Decided: " + n.label(part.Pick) + "."
		}
	}
	return n.once(hows) + n.once(counted)
}

// once joins sentences about the parts, each with the names of the parts that it is true of. What is true of all stands
// there without a name.
func (n *Note) once(sentences []string) (words string) {
	for i, sentence := range sentences {
		if sentence == "" || slices.Contains(sentences[:i], sentence) {
			continue
		}
		var names []string
		for k := range sentences {
			if sentences[k] == sentence {
				names = append(names, n.Parts[k].Where)
			}
		}
		if len(names) == len(n.Parts) {
			words += " " + sentence
			continue
		}
		where := phrase.And(names)
		if after, accents := strings.CutPrefix(where, ofAccents); accents {
			where = "The accents of " + after
		}
		words += " " + where + ": " + strings.ToLower(sentence[:1]) + sentence[1:]
	}
	return words
}

// label returns the label of an answer.
func (n *Note) label(pick string) string {
	for _, o := range n.Options {
		if o.Value == pick {
			return o.Label
		}
	}
	return pick
}
