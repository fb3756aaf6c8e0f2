package form_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/form"
)

// TestErrorsOfFieldsOfferOnlyWhatTheyTake types nonsense and absurd values into every field of a job. Each example of
// an error and each end of a range it names is typed into the same field, which must take it.
func TestErrorsOfFieldsOfferOnlyWhatTheyTake(t *testing.T) {
	offered := 0
	for _, n := range job.Nouns() {
		for i := range n.Fields {
			f := &n.Fields[i]
			for _, units := range []measure.System{measure.Metric, measure.Imperial} {
				for _, typed := range []string{"??", "far", "-3", "1e99", "999999999", "0,5", "3 parsec", "99x7",
					"#12"} {
					message := typedInto(&n, f, typed, units)
					for _, example := range offers(message) {
						offered++
						assert.Empty(t, typedInto(&n, f, example, units), "%s %s offers %q in %q", n.Name, f.Name,
							example, message)
					}
				}
			}
		}
	}
	assert.Greater(t, offered, 500, "errors without examples or ranges")
}

// typedInto returns the error of a field for what is typed, "" if it is taken.
func typedInto(n *job.Noun, f *job.Field, typed string, units measure.System) string {
	entity := n.Name
	if !n.Single {
		entity += "/x"
	}
	_, state := form.Entity(n, entity, []string{f.Name}, form.Values{f.Name: {typed}}, units)
	return state.Errors[f.Name]
}

// offers returns the examples of an error and the ends of its range.
func offers(message string) []string {
	var all []string
	for _, begins := range []string{" such as ", "an example is ", ", as in "} {
		if _, examples, found := strings.Cut(message, begins); found {
			examples, _, _ = strings.Cut(examples, "; ")
			examples = strings.NewReplacer(", or ", ", ", " or ", ", ").Replace(examples)
			all = append(all, strings.Split(examples, ", ")...)
		}
	}
	for _, begins := range []string{"allowed is ", "must be from ", "whole number from "} {
		if _, limits, found := strings.Cut(message, begins); found {
			low, high, _ := strings.Cut(limits, " to ")
			all = append(all, low, high)
		}
	}
	return all
}
