package job_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
)

// TestErrorsOfJobFilesOfferOnlyWhatTheyTake gives every field of a job file values of wrong types and shapes. Each
// example of an error is JSON that the same field takes; in a colour or a text it may stand without quotes.
func TestErrorsOfJobFilesOfferOnlyWhatTheyTake(t *testing.T) {
	offered := 0
	for _, n := range job.Nouns() {
		for i := range n.Fields {
			f := &n.Fields[i]
			for _, wrong := range []string{`{}`, `[{}]`, `["x"]`, `true`, `-1e300`, `"x"`, `"2x7"`, `""`, `7`, `[7]`} {
				err := f.Check(json.RawMessage(wrong))
				if err == nil {
					continue
				}
				_, example, found := strings.Cut(err.Error(), " such as ")
				if !found {
					continue
				}
				offered++
				if !json.Valid([]byte(example)) || f.Kind == job.HexColour || f.Only != "" {
					example = `"` + strings.Trim(example, `"`) + `"`
				}
				assert.NoError(t, f.Check(json.RawMessage(example)), "%s %s: %v", n.Name, f.Name, err)
			}
		}
	}
	assert.Greater(t, offered, 50, "errors without examples")
}
