package page_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDoRefusesUnknownLines checks that unknown lines and counts get an error message. A card that the design has
// dropped stays known if it has progress, and posts from a phone with an older design are accepted.
func TestDoRefusesUnknownLines(t *testing.T) {
	w, v := typedJob(t)
	id := v.current().ID
	at := "/jobs/" + id + "/do"
	for name, in := range map[string]form.Values{
		"no such card": {"act": {"tick"}, "e": {"card/nope"}}, "no such line": {"act": {"pack"},
			"e": {"pack/latex/11/nope"}, "n": {"3"}}, "counting an unknown card": {"act": {"add"}, "e": {"card/nope"},
			"n": {"3"}},
		"nothing to take back": {"act": {"undo"}, "e": {"card/make/garland"}, "op": {"nope"}},
		"taking back nothing":  {"act": {"undo"}, "e": {"card/make/garland"}},
	} {
		reply := page.Post(v.world1(), at, in)
		assert.Equal(t, 422, reply.Status, name)
		assert.Empty(t, reply.Writes, name)
		assert.Contains(t, reply.Frame.Alert, "Nothing was changed", name)
	}
	phone := v.world1()
	phone.Scripts = true
	assert.Len(t, page.Post(phone, at, form.Values{"act": {"tick"}, "e": {"card/nope"}}).Writes, 1)

	v.post(at, form.Values{"act": {"add"}, "e": {"card/make/garland"}, "n": {"3"}})
	tally := v.current().State.Tally("card/make/garland")
	require.Len(t, tally.Entries, 1)
	w.write(job.Author{Role: job.Owner},
		page.Write{Job: id, Changes: []job.Change{job.Put("piece/garland", "removed", true)}})
	for _, in := range []form.Values{{"act": {"tick"}, "e": {"card/make/garland"}}, {"act": {"undo"},
		"e": {"card/make/garland"}, "op": {tally.Entries[0].ID}}} {
		reply := page.Post(v.world1(), at, in)
		assert.Equal(t, 303, reply.Status)
		assert.Len(t, reply.Writes, 1)
	}
}
