package page_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// Indoors the brief keeps the weather folded. What is wrong in there opens it.
func TestTheBriefFoldsTheWeatherIndoors(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	for _, row := range []struct {
		name         string
		typed        form.Values
		folded, open bool
	}{
		{"indoors", form.Values{"place": {"indoors"}}, true, false},
		{"outdoors", form.Values{"place": {"outdoors"}}, false, false},
		{"indoors with a wind that is none", form.Values{"place": {"indoors"}, "wind_mps": {"a breeze"}}, true, true},
	} {
		v.visit("/jobs/demo/brief").submit("#edit-brief", row.typed)
		if !row.open {
			v.visit("/jobs/demo/brief")
		}
		part := v.doc.Find("#brief-weather")
		assert.Equal(t, row.folded, part.Length() == 1, row.name)
		_, open := part.Attr("open")
		assert.Equal(t, row.open, open, row.name)
		assert.Equal(t, 1, v.doc.Find("#edit-brief [name=wind_mps]").Length(), "%s: nothing is lost", row.name)
	}
}
