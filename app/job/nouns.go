package job

import (
	"strconv"
	"strings"
)

// Noun is one kind of thing in a job, with its fields. Entities of a noun are named "noun/id", single ones "noun".
type Noun struct {
	Name    string // in entity names
	InFile  string // its key in a job file; empty: it is in none
	Label   string
	Single  bool // one of it in a job: the brief
	Private bool // for the owner alone
	Fields  []Field
}

// nouns is plain data that nobody changes. Looking one up costs nothing.
var nouns = [...]*Noun{&briefNoun, &contactNoun, &colourNoun, &memberNoun, &kitNoun, &pieceNoun, &layerNoun,
	&addedNoun, &overrideNoun, &choiceNoun, &pricesNoun, &photoNoun, &boxNoun}

// Nouns lists all kinds of thing in a job. Forms, checks, the job file and its schema follow this list. All callers
// share the fields: copy them before you change one.
func Nouns() []Noun {
	all := make([]Noun, len(nouns))
	for i, n := range nouns {
		all[i] = *n
	}
	return all
}

// filed lists the nouns of a job file.
func filed() (all []*Noun) {
	for _, n := range nouns {
		if n.InFile != "" {
			all = append(all, n)
		}
	}
	return all
}

// FindNoun returns the noun of an entity, shared by all callers; nil if there is none.
func FindNoun(entity string) (*Noun, bool) {
	for _, n := range nouns {
		rest, within := strings.CutPrefix(entity, n.Name)
		if within && (n.Single && rest == "" || !n.Single && strings.HasPrefix(rest, "/")) {
			return n, true
		}
	}
	return nil, false
}

// Field returns the noun's field with the name, shared by all callers; nil if there is none.
func (n *Noun) Field(name string) (*Field, bool) { return fieldNamed(n.Fields, name) }

func fieldNamed(fields []Field, name string) (*Field, bool) {
	for i := range fields {
		if fields[i].Name == name {
			return &fields[i], true
		}
	}
	return nil, false
}

// KnownSize reports whether balloons of the nominal size, in inches, exist in the tables.
func KnownSize(inches int) bool {
	for _, s := range Sizes {
		if s == inches {
			return true
		}
	}
	return false
}

// Sizes are the nominal sizes of round balloons, inches, smallest first. Common practice, no source.
var Sizes = [...]int{5, 9, 10, 11, 12, 16, 18, 24, 36}

func sizeList() string {
	names := make([]string, len(Sizes))
	for i, s := range Sizes {
		names[i] = strconv.Itoa(s)
	}
	return strings.Join(names, ", ")
}
