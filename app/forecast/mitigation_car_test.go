package forecast_test

import (
	"strings"
	"testing"

	"garlandry/app/plan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/testdata/long"
)

// If the car needs two trips, fixes offer another car or making a piece at the venue.
func TestASecondTripGetsFixes(t *testing.T) {
	t.Parallel()
	for _, row := range []struct {
		name    string
		changes []job.Change
	}{
		{"a car of the kit", []job.Change{job.Put("kit/car", "litres", 3600)}},
		{"a usual car, as the kit has none",
			[]job.Change{job.Put("kit/car", "removed", true), job.Put("override/car/litres", "value", 3600)}},
	} {
		t.Run(row.name, func(t *testing.T) {
			t.Parallel()
			if row.name != "a car of the kit" {
				long.Test(t, "a second car is offered beside the usual one too")
			}
			j := job.Try(bringAll(readJob(t, "reading-room")), row.changes)
			p, now := plan.Make(j), longBefore(t, j)
			again := false
			for _, c := range p.Cards {
				again = again || strings.HasPrefix(c.Key, "card/trip/")
			}
			require.True(t, again, "the car needs a second trip")
			fixes := checkFixes(t, j)
			require.NotEmpty(t, fixes)
			spares := false
			for _, fix := range fixes {
				t.Logf("%.2f %s: %s", fix.Forecast.Odds, fix.Key, fix.Forecast.Sentence)
				for _, key := range strings.Split(fix.Key, "+") {
					spares = spares || key == "car" || strings.HasPrefix(key, "site/")
				}
			}
			assert.True(t, spares, "a fix saves the trip")
			assert.NotNil(t, clockOf(t, j, now, nil).FindFix(j, &p, "car"))
		})
	}
}
