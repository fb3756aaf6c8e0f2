package plan_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// second returns the changes for another bench-tested frame of the same width with its own garland.
func second() []job.Change {
	changes := piece("back", "garland", map[string]any{"length_mm": 3000, "frame": "other", "recipe": "2x11@10",
		"colours": shares("coral", 1.0), "accents": 0})
	for field, value := range map[string]any{"kind": "frame", "name": "Second stand", "count": 1, "width_mm": 3000,
		"height_mm": 2200, "tested_mm": 3000,
		"test_weight_g": 1550, "test_dip_mm": 18, "test_stays_mm": 6} {
		changes = append(changes, job.Put("kit/other", field, value))
	}
	return changes
}

// stepsOf returns the steps of a frame's card.
func stepsOf(p plan.Plan, frame string) string {
	return strings.Join(cards(p)["card/frame/"+frame].Steps, "\n")
}

func TestAFrameCarriesWhatHangsOnIt(t *testing.T) {
	cloth := []job.Change{job.Put("kit/cloth", "kind", "other"), job.Put("kit/cloth", "name", "Linen cloth"),
		job.Put("kit/cloth", "count", 1), job.Put("kit/cloth", "weight_g", 1800)}
	for _, row := range []struct {
		name                     string
		changes                  []job.Change
		onFirst, onSecond, asked []string // the named things, and those that the plan asks about
	}{
		{"no frame set", append(theSign(2000), second()...), []string{"Light sign"}, []string{"Light sign"},
			[]string{"Light sign"}},
		{"frame set", append(append(theSign(2000), second()...), job.Put("kit/sign", "frame", "other")), nil,
			[]string{"Light sign"}, nil},
		{"one of two set", append(append(append(theSign(2000), cloth...), second()...),
			job.Put("kit/sign", "frame", "stand")),
			[]string{"Light sign", "Linen cloth"}, []string{"Linen cloth"}, []string{"Linen cloth"}},
		{"an unknown frame", append(append(theSign(2000), second()...), job.Put("kit/sign", "frame", "none")),
			[]string{"Light sign"}, []string{"Light sign"}, []string{"Light sign"}},
		{"only one frame", theSign(2000), []string{"Light sign"}, nil, nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(benched(row.changes...))
			for frame, want := range map[string][]string{"stand": row.onFirst, "other": row.onSecond} {
				text := stepsOf(p, frame)
				for _, thing := range []string{"Light sign", "Linen cloth"} {
					assert.Equal(t, slices.Contains(want, thing), strings.Contains(text, thing+" ("), "%s on %s: %s", thing,
						frame, text)
				}
				guess := "No frame is set for " + strings.Join(row.asked, ", ") + ", so each frame is checked as if it carried it."
				assert.Equal(t, len(row.asked) > 0 && len(want) > 0, strings.Contains(text, guess), text)
			}
		})
	}
}

// The dip with each thing at its own place equals the calculator's.
func TestDipWithHangingThings(t *testing.T) {
	for _, row := range []struct {
		name    string
		changes []job.Change
		loads   string // for the calculator
	}{
		{"a sign at the middle", theSign(2000), "sign 2kg @ 1.5m"},
		{"a sign beside a post", append(theSign(2000), job.Put("kit/sign", "at_mm", 300)), "sign 2kg @ 0.3m"},
		{"a sign past the end hangs at the end", append(theSign(2000), job.Put("kit/sign", "at_mm", 9000)), "sign 2kg @ 3m"},
		{"a narrow cloth on the left", append(theSign(2000), job.Put("kit/sign", "name", "Linen cloth"),
			job.Put("kit/sign", "width_mm", 1000), job.Put("kit/sign", "at_mm", 600)), "cloth 2kg from 0.1m to 1.1m"},
		{"a narrow cloth", append(theSign(2000), job.Put("kit/sign", "name", "Linen cloth"),
			job.Put("kit/sign", "width_mm", 1000)), "cloth 2kg from 1m to 2m"},
		{"a cloth of unknown width", append(theSign(2000), job.Put("kit/sign", "name", "Linen cloth")), "cloth 2kg along"},
	} {
		t.Run(row.name, func(t *testing.T) {
			// The garland is tiny, so that the place of the light thing matters.
			j := benched(
				append(row.changes, job.Put("piece/door", "length_mm", 100), job.Put("piece/door", "recipe", "1x5@4"))...)
			var dips figures.Line
			for _, l := range cards(plan.Make(j))["card/frame/stand"].Working {
				if l.What == "Dips" {
					dips = l
				}
			}
			require.NotEmpty(t, dips.Result)
			_, garland, _ := strings.Cut(dips.How, "door (")
			garland, _, _ = strings.Cut(garland, ")")
			result := compute(t, "dip", map[string]string{"span": "3m", "loads": "garland " + garland + " along, " + row.loads,
				"test_weight": "1.55kg", "test_dip": "18mm", "test_stays": "6mm"})
			assert.Equal(t, measure.FormatSmallLength(result.Number("dip_mm"), measure.Metric), dips.Result)
		})
	}
}

// A frame that carries only a sign is put up and packed, and the sign waits only for that frame.
func TestAFrameForASignAlone(t *testing.T) {
	changes := append(theSign(2000), job.Put("kit/easel", "kind", "frame"), job.Put("kit/easel", "name", "Easel"),
		job.Put("kit/easel", "count", 1))
	p := plan.Make(benched(append(changes, job.Put("kit/sign", "frame", "easel"))...))
	assert.Equal(t, "carries Light sign", packLines(p)["pack/kit/easel"].Reason)
	after := task.Keys(cards(p)["card/sign/sign"].After)
	assert.Contains(t, after, "card/frame/easel")
	assert.NotContains(t, after, "card/frame/stand")
	assert.NotContains(t, after, "card/fix/door")
	assert.NotContains(t, packLines(plan.Make(benched(changes...))), "pack/kit/easel", "nothing hangs on it")
	named := plan.Make(benched(append(changes, job.Put("kit/sign", "frame", "easel"),
		job.Put("kit/sign", "name", "Initials"))...))
	assert.Contains(t, cards(named), "card/sign/sign", "a thing set on a frame is hung, whatever its name")
}

// Each frame carries a garland. Only the one with the cloth is closed.
func TestOnlyTheCoveredFrameTakesTheWind(t *testing.T) {
	cloth := []job.Change{job.Put("brief", "place", "outdoors"), job.Put("kit/cloth", "kind", "other"),
		job.Put("kit/cloth", "name", "Linen cloth"), job.Put("kit/cloth", "count", 1)}
	weights := func(frame string) int {
		p := plan.Make(benched(append(append(cloth, second()...), job.Put("kit/cloth", "frame", frame))...))
		return packLines(p)["pack/tool/foot-weights"].Need
	}
	alone := packLines(plan.Make(benched(cloth...)))["pack/tool/foot-weights"].Need
	open := packLines(plan.Make(benched(cloth[0])))["pack/tool/foot-weights"].Need
	assert.Greater(t, open, 6, "a garland catches wind too")
	assert.Greater(t, alone, open)
	assert.Equal(t, open+alone, weights("other"), "each as it is closed")
	assert.Equal(t, 2*alone, weights(""), "no frame is set for the cloth")
}
