package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
)

// onFrame returns a job with a piece on a frame whose top bar was tested up to a width.
func onFrame(kind string, fields map[string]any, tested int) job.Job {
	fields["frame"], fields["recipe"], fields["colours"] = "stand", "2x11@10", shares("coral", 1.0)
	changes := append(piece("door", kind, fields), job.Put("kit/stand", "kind", "frame"),
		job.Put("kit/stand", "name", "Telescopic stand"), job.Put("kit/stand", "count", 1),
		job.Put("kit/stand", "width_mm", 3000), job.Put("kit/stand", "height_mm", 2200),
		job.Put("kit/stand", "tested_mm", tested), job.Put("brief", "units", "metric"))
	return made(changes...)
}

func TestTheFrameCardSaysHowWideItWasTested(t *testing.T) {
	for _, row := range []struct {
		name   string
		tested int
		want   string
	}{
		{"tested wider", 3200, "tested up to 3.2 m; set it no wider"},
		{"tested narrower", 2000, "Careful: the top bar is tested up to 2 m only"},
		{"never", 0, "Careful: the top bar was never tested"},
	} {
		t.Run(row.name, func(t *testing.T) {
			all := cards(plan.Make(onFrame("garland", map[string]any{"length_mm": 3000}, row.tested)))
			assert.Contains(t, strings.Join(all["card/frame/stand"].Steps, "\n"), row.want)
			test, there := all["card/test/stand"]
			assert.Equal(t, row.tested < 3000, there)
			if there {
				assert.Contains(t, strings.Join(test.Steps, "\n"), "dips more than 6 cm", "a fiftieth of the span")
			}
		})
	}
}

func TestAHoopHasNoTopBar(t *testing.T) {
	for _, name := range []string{"Telescopic stand", "Hoop steel"} {
		j := onFrame("hoop", map[string]any{"diameter_mm": 2000, "part_pct": 60}, 0)
		if name != "Telescopic stand" {
			j = job.Try(j, []job.Change{job.Put("kit/stand", "name", name), job.Put("piece/door", "kind", "garland"),
				job.Put("piece/door", "length_mm", 2000)})
		}
		p := plan.Make(j)
		all := cards(p)
		assert.NotContains(t, all, "card/test/stand", name)
		assert.Contains(t, all, "card/frame/stand", name)
		assert.NotContains(t, asJSON(t, p.Cards)+asJSON(t, p.Notes), "top bar", name)
	}
}

func TestNotesOfTheBriefAreOnTheLookCard(t *testing.T) {
	j := job.Try(onFrame("garland", map[string]any{"length_mm": 3000}, 3000),
		[]job.Change{job.Put("brief", "notes", "The lift is out of order")})
	p := plan.Make(j)
	assert.Contains(t, cards(p)["card/look"].Steps, "From the brief: The lift is out of order.")
	assert.Contains(t, asJSON(t, p.Notes), "From the brief: The lift is out of order.")
}

// Typed balloons in a size that their colour lacks get the same choice as in bouquets.
func TestTypedBalloonsOfASizeTheColourLacks(t *testing.T) {
	counts := []job.TypedCount{{SizeIn: 36, Colour: "ink", Count: 24}, {SizeIn: 36, ToIn: 30, Colour: "ink", Count: 2}}
	j := made(piece("corner", "free", map[string]any{"counts": counts})...)
	p := plan.Make(j)
	var notes []count.Note
	for _, n := range p.Notes {
		if n.Kind == "substitute" {
			notes = append(notes, n)
		}
	}
	if assert.Len(t, notes, 1) {
		assert.Equal(t, count.LackKey("ink", 36), notes[0].Key)
		assert.Len(t, notes[0].Options, 2)
		assert.Contains(t, notes[0].Text, "Its nearest size is 11-inch, one for one.")
	}
	assert.Equal(t, 26, ofSize(only(t, p), "ink", 11))
	for pick, size := range map[string]int{"accept": 11, "keep": 36} {
		picked := only(t, plan.Make(job.Try(j, []job.Change{job.Put("choice/substitute/corner/ink/36", "pick", pick)})))
		assert.Equal(t, 26, ofSize(picked, "ink", size), pick)
	}
}
