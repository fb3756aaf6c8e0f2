package page

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
)

func TestOnlyTheOwnerGetsPrivateValues(t *testing.T) {
	whole := job.Job{ID: "one", Contact: job.Contact{Name: "Ines"}, Prices: map[string]string{"260": "100 for 9.90"},
		State: job.NewState(), Private: job.NewState()}
	for _, role := range []job.Role{job.Owner, job.Lead, job.Helper} {
		r := &request{Deps: Deps{Visitor: Visitor{Role: role}, Job: func(string) (job.Job, bool) { return whole, true }}}
		got, found := r.findJob("one")
		require.True(t, found)
		assert.Equal(t, role == job.Owner, got.Contact.Name == "Ines", role)
		assert.Equal(t, role == job.Owner, len(got.Prices) == 1, role)
		assert.Equal(t, role == job.Owner, got.Private == whole.Private, role)
	}
}
