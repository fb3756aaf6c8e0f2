package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
	"garlandry/app/plan/transport"
)

// bringQuestion returns the note that asks whether a piece is brought, or nil.
func bringQuestion(p plan.Plan, piece string) *count.Note {
	for i := range p.Notes {
		if p.Notes[i].Key == transport.BringKey(piece) {
			return &p.Notes[i]
		}
	}
	return nil
}

// Further loads of a far venue take longer than the work there, so a piece meant for home is made at the venue, unless
// the user has it brought. A car that takes all at once brings it.
func TestFurtherLoadsAreWeighedAgainstTheVenue(t *testing.T) {
	hilltop := func(litres int, pick string) plan.Plan {
		return plan.Make(job.Try(readJob(t, "hilltop-wedding"), []job.Change{job.Put("kit/car", "litres", litres),
			job.Put("choice/"+transport.BringKey("vow"), "pick", pick)}))
	}
	for _, litres := range []int{1200, 1600, 2400, 4000} {
		for _, pick := range []string{"", transport.PickVenue} {
			p := hilltop(litres, pick)
			assert.Equal(t, task.Site, cards(p)["card/make/vow"].Place, "%d", litres)
			assert.Empty(t, tripKeys(p), "%d", litres)
			assert.Equal(t, []string{"Vow garland"}, p.BuiltOnSite(), "%d", litres)
			note := bringQuestion(p, "vow")
			require.NotNil(t, note, "%d", litres)
			assert.True(t, note.Asks())
			assert.Equal(t, transport.PickVenue, note.Picked)
			assert.Contains(t, note.Text, "further load", "%d", litres)
			assert.Contains(t, note.Text, "Made at the venue, it takes all hands there about")
		}
		p := hilltop(litres, transport.PickBrought)
		assert.Equal(t, task.Home, cards(p)["card/make/vow"].Place, "%d", litres)
		assert.NotEmpty(t, tripKeys(p), "%d", litres)
		note := bringQuestion(p, "vow")
		require.NotNil(t, note, "one can change one's mind")
		assert.Equal(t, transport.PickBrought, note.Picked)
	}
	p := hilltop(8000, "")
	assert.Equal(t, task.Home, cards(p)["card/make/vow"].Place)
	assert.Nil(t, bringQuestion(p, "vow"), "the first load is never a reason")
}

// Next door a further load takes less time than a large piece, and what is made ahead is the user's own number.
func TestAShortDriveIsWorthIt(t *testing.T) {
	j := garland(12_000, append(withCar(1000), job.Put("brief", "drive_min", 1),
		job.Put("override/minutes/car/practised", "value", 2), job.Put("override/minutes/car/beginner", "value", 2))...)
	p := plan.Make(j)
	assert.NotEmpty(t, tripKeys(p))
	assert.Equal(t, task.Home, cards(p)["card/make/door"].Place)
	assert.Nil(t, bringQuestion(p, "door"))
	far := plan.Make(job.Try(j, []job.Change{job.Put("brief", "drive_min", 60)}))
	assert.Equal(t, task.Site, cards(far)["card/make/door"].Place)
	assert.NotContains(t, strings.Join(tripKeys(far), " "), "trip")
}
