package plan_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
)

// TestRibbonAndWeightsInFeet checks 20 balloons on 1.5 m each: 30 m are 32.8 yards of 0.9144 m (international yard and
// pound agreement of 1959). A weight's grams are rounded up, so that nobody packs too light a one.
func TestRibbonAndWeightsInFeet(t *testing.T) {
	p := plan.Make(job.Try(readJob(t, "reading-room"), []job.Change{job.Put("brief", "units", "imperial")}))
	metric := plan.Make(job.Try(readJob(t, "reading-room"), []job.Change{job.Put("brief", "units", "metric")}))
	ribbon, inMetres := packLine(p, "pack/helium/ribbon"), packLine(metric, "pack/helium/ribbon")
	assert.Equal(t, "yards", ribbon.Unit)
	assert.Equal(t, "m", inMetres.Unit)
	assert.GreaterOrEqual(t, float64(ribbon.Need)*0.9144, float64(inMetres.Need)-1)
	assert.Less(t, float64(ribbon.Need-1)*0.9144, float64(inMetres.Need))
	grams := figureIn(t, packLine(metric, "pack/helium/weights").Reason, "g")
	ounces := figureIn(t, packLine(p, "pack/helium/weights").Reason, "oz")
	assert.Greater(t, ounces*28.349523125, grams-5)
	assert.Less(t, ounces*28.349523125, grams+0.5*28.349523125)
}

func packLine(p plan.Plan, key string) packing.Line {
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			if line.Key == key {
				return line
			}
		}
	}
	return packing.Line{}
}

// figureIn returns the number before a unit in a sentence.
func figureIn(t *testing.T, sentence, unit string) float64 {
	t.Helper()
	found := regexp.MustCompile(`([\d.]+) ` + unit + `\b`).FindStringSubmatch(sentence)
	require.NotEmpty(t, found, sentence)
	x, err := strconv.ParseFloat(found[1], 64)
	require.NoError(t, err)
	return x
}

// siFigure finds a figure in a unit that somebody who thinks in feet does not read. Litres of a cylinder or a car stand
// on their papers everywhere.
var siFigure = regexp.MustCompile(`\d ?(N|kN|Pa|kPa|m/s|km/h|kg|g|mm|cm|m|m²|°C)([^\w/²]|$)`)

// TestPlansInFeetAreInFeet checks the words of every sample job in feet: steps, cautions, reasons, notes, names of
// lines. The formulas of "Show the maths" may have SI units.
func TestPlansInFeetAreInFeet(t *testing.T) {
	for _, name := range goldenJobs() {
		t.Run(name, func(t *testing.T) {
			j := job.Try(readJob(t, name), []job.Change{job.Put("brief", "units", "imperial")})
			for _, text := range strings.Split(write(plan.Make(j)), "\n") {
				if strings.HasPrefix(text, "PIECE") || strings.HasPrefix(text, "  section") ||
					strings.HasPrefix(text, "FIGURE") ||
					strings.HasPrefix(text, "  - ") {
					continue
				}
				assert.NotRegexp(t, siFigure, text)
			}
		})
	}
}
