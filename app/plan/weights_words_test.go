package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
)

// stepsIn joins the steps of a card.
func stepsIn(p plan.Plan, key string) string { return strings.Join(cards(p)[key].Steps, "\n") }

// A stand without weights is told nothing of weights, on its card or on the pack list.
func TestNoWeightsAreNotPutOn(t *testing.T) {
	none := []job.Change{job.Put("override/supply/stand-weights", "value", 0),
		job.Put("override/stand/bump-n", "value", 0), job.Put("brief", "gust_mps", 0), job.Put("brief", "wind_mps", 0)}
	p := plan.Make(job.Try(readJob(t, "hilltop-wedding"), none))
	assert.NotContains(t, stepsIn(p, "card/frame/poles"), "0 weights")
	assert.Contains(t, stepsIn(p, "card/frame/vow")+stepsIn(p, "card/frame/frame"), "weights of 10 kg on the feet")
	assert.NotContains(t, packLines(p)["pack/tool/foot-weights"].Reason, "Aisle columns")
	usual := packLines(plan.Make(readJob(t, "hilltop-wedding")))["pack/tool/foot-weights"].Reason
	assert.Contains(t, usual, "4 for Aisle columns (1 each)")
}

// More weights than the cars may carry are said, with what helps. Another car carries more.
func TestHeavyWeightsAreSaid(t *testing.T) {
	says := func(changes ...job.Change) bool {
		return strings.Contains(noteTexts(plan.Make(job.Try(readJob(t, "hilltop-wedding"), changes))), "foot weights of")
	}
	heavy := job.Put("choice/stakes", "pick", "none") // 44 weights of 10 kg
	assert.False(t, says())
	assert.True(t, says(heavy))
	assert.False(t, says(heavy, job.Put("override/car/payload-kg", "value", 500)))
	assert.False(t, says(heavy, job.Put("brief", "travel", "none")))
	assert.False(t, says(heavy, job.Put("kit/car", "count", 2), job.Put("member/otto", "drives", true),
		job.Put("kit/car", "driver", "")))
}

// Gel that the plan advises is put in by the card that fills, before the helium.
func TestTheCardPutsTheGelIn(t *testing.T) {
	wedding := readJob(t, "hilltop-wedding")
	assert.NotContains(t, stepsIn(plan.Make(wedding), "card/make/float"), "gel")
	late := plan.Make(job.Try(wedding, []job.Change{job.Put("brief", "until", "2027-07-17T23:00")}))
	assert.True(t, strings.HasPrefix(stepsIn(late, "card/make/float"), "First put 5 ml of drying gel into each of 40"))
}

// Until a moment before the doors nothing is needed: the plan says that it counts otherwise.
func TestHeliumNeededBeforeTheDoors(t *testing.T) {
	early := plan.Make(job.Try(readJob(t, "hilltop-wedding"), []job.Change{
		job.Put("brief", "until", "2027-07-17T14:00")}))
	assert.Contains(t, noteTexts(early), "needed until 14:00, which is before the doors. Counted until 18:30")
	assert.NotContains(t, noteTexts(plan.Make(readJob(t, "hilltop-wedding"))), "before the doors. Counted")
}

// A car that the plan supposes is said, as long as anything made at home hangs on it.
func TestACarThatIsSupposedIsSaid(t *testing.T) {
	fete := readJob(t, "school-fete")
	none := []job.Change{job.Put("kit/hatch", "removed", true)}
	assert.NotContains(t, noteTexts(plan.Make(fete)), "litres are")
	assert.Contains(t, noteTexts(plan.Make(job.Try(fete, none))), "No car in your kit: counted with one of 1200 litres")
	unknown := job.Try(fete, []job.Change{job.Put("kit/hatch", "litres", 0)})
	assert.Contains(t, noteTexts(plan.Make(unknown)), "Hatchback: its litres are not in the kit, so 1200 litres are")
	site := append(none, job.Put("piece/gate", "built", "site"), job.Put("piece/years", "built", "site"),
		job.Put("piece/stalls", "built", "site"))
	assert.NotContains(t, noteTexts(plan.Make(job.Try(fete, site))), "No car in your kit")
	assert.NotContains(t, noteTexts(plan.Make(job.Try(fete, append(none, job.Put("brief", "travel", "none"))))), "No car")
}

// A trolley is packed only where it gets through, if the brief says what the way in is like.
func TestATrolleyComesWhereItGetsThrough(t *testing.T) {
	packs := func(changes ...job.Change) bool {
		_, packed := packLines(plan.Make(job.Try(readJob(t, "hilltop-wedding"), changes)))["pack/tool/trolley"]
		return packed
	}
	assert.False(t, packs(), "80 m over grass, and no trolley gets through")
	assert.True(t, packs(job.Put("brief", "trolley", true)))
	assert.True(t, packs(job.Put("brief", "carry_mm", 0)), "the brief does not say")
	assert.False(t, packs(job.Put("brief", "carry_mm", 0), job.Put("brief", "flights", 2)))
}

// Without power the plan says what fills the balloons: a pump on a battery, or a hand pump, which is slower. At home
// without a car there is no other place to fill them.
func TestWhatFillsWithoutPower(t *testing.T) {
	wedding := readJob(t, "hilltop-wedding")
	says := noteTexts(plan.Make(wedding))
	assert.Contains(t, says, "350 balloons to fill with Battery pump. Charge it")
	assert.NotContains(t, says, "hand pump")
	assert.Equal(t, 1, packLines(plan.Make(wedding))["pack/tool/hand-pump"].Need)
	hand := job.Put("kit/pump", "name", "Pump")
	p := plan.Make(job.Try(wedding, []job.Change{hand}))
	assert.Contains(t, noteTexts(p), "350 balloons to fill by hand pump. That takes longer than the minutes here")
	assert.Equal(t, 2, packLines(p)["pack/tool/hand-pump"].Need)
	there := noteTexts(plan.Make(job.Try(wedding, []job.Change{hand, job.Put("brief", "travel", "none")})))
	assert.Contains(t, there, "350 balloons to fill by hand pump")
	assert.NotContains(t, there, "into the car")
}
