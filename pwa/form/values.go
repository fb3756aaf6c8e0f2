package form

import (
	"maps"
	"slices"
	"strings"
)

// Values is a submitted form: what was typed, by input name, in the order of the page.
type Values map[string][]string

// Get returns the first value of an input, empty if there is none.
func (v Values) Get(key string) string {
	if len(v[key]) == 0 {
		return ""
	}
	return v[key][0]
}

// Has reports whether the form had a value for the input, be it empty.
func (v Values) Has(key string) bool { return len(v[key]) > 0 }

// Set makes text the only value of an input.
func (v Values) Set(key, text string) { v[key] = []string{text} }

// Under lists the names of the inputs that begin with prefix, without it, sorted.
func (v Values) Under(prefix string) []string {
	var rest []string
	for key := range v {
		if strings.HasPrefix(key, prefix) {
			rest = append(rest, key[len(prefix):])
		}
	}
	slices.Sort(rest)
	return rest
}

// Within returns the inputs whose names begin with prefix, without it, hidden inputs included. Pages with several
// entities use it.
func (v Values) Within(prefix string) Values {
	part := Values{}
	for key, list := range v {
		if strings.HasPrefix(key, was) && strings.HasPrefix(key[len(was):], prefix) {
			part[was+key[len(was)+len(prefix):]] = list
		} else if strings.HasPrefix(key, prefix) {
			part[key[len(prefix):]] = list
		}
	}
	return part
}

// Prefixed puts prefix before the names of all inputs. [Values.Within] undoes it.
func (v Values) Prefixed(prefix string) Values {
	all := Values{}
	for key, list := range v {
		if strings.HasPrefix(key, was) {
			all[was+prefix+key[len(was):]] = list
		} else {
			all[prefix+key] = list
		}
	}
	return all
}

// Clone returns a copy whose lists are its own.
func (v Values) Clone() Values {
	c := make(Values, len(v))
	for key, list := range v {
		c[key] = slices.Clone(list)
	}
	return c
}

// State is a form as it is shown: its values and its errors. What was typed is always kept.
type State struct {
	Values Values
	Errors map[string]string // by input name; never nil from this package
	Alert  string            // what is wrong with the whole, empty if nothing is
}

// NewState returns the state of an empty form.
func NewState() State { return State{Values: Values{}, Errors: map[string]string{}} }

// OK reports whether the form has no errors.
func (s State) OK() bool { return len(s.Errors) == 0 && s.Alert == "" }

// Get returns the first value of an input.
func (s State) Get(key string) string { return s.Values.Get(key) }

// Prefixed puts prefix before the names of all inputs, in values and errors.
func (s State) Prefixed(prefix string) State {
	errors := make(map[string]string, len(s.Errors))
	for key, message := range s.Errors {
		errors[prefix+key] = message
	}
	return State{Values: s.Values.Prefixed(prefix), Errors: errors, Alert: s.Alert}
}

// Fail adds an error at an input, unless it has one already.
func (s State) Fail(key, message string) {
	if _, there := s.Errors[key]; !there {
		s.Errors[key] = message
	}
}

// Wrong lists the inputs with errors, sorted.
func (s State) Wrong() []string {
	return slices.Sorted(maps.Keys(s.Errors))
}

// was is the prefix of the hidden inputs that hold the values of a form when it was opened.
const was = "was."

// Was returns the name of the hidden input that holds an input's value when the form was opened.
func Was(key string) string { return was + key }
