package table_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/cluster/internal/table"
	"garlandry/calc/nest"
)

// TestTableIsWhatTheNestGives relaxes some entries anew: a table that no longer
// fits the nest fails here; go generate in calc/cluster makes it anew.
func TestTableIsWhatTheNestGives(t *testing.T) {
	for _, c := range []struct {
		entry table.Entry
		kept  nest.Curve
	}{
		{table.Entry{Small: 2, Ratio: 1}, table.Alike(2)},
		{table.Entry{Small: 3, Ratio: 1}, table.Alike(3)},
		{table.Entry{Small: 2, Large: 1, Ratio: 1.6}, table.Mixed(2, 1, 1.6)},
	} {
		curve, err := nest.NewCurve(c.entry.Diameters())
		require.NoError(t, err)
		assert.Equal(t, table.Encode(curve), table.Encode(c.kept), "%+v", c.entry)
	}
}

func TestEveryEntryHasItsPlace(t *testing.T) {
	balls := map[string]bool{}
	for _, e := range table.Entries() {
		curve := table.Alike(e.Small)
		if e.Large > 0 {
			curve = table.Mixed(e.Small, e.Large, e.Ratio)
		}
		text := table.Encode(curve)
		assert.Len(t, text, table.Width)
		assert.False(t, balls[text], "%+v has another entry's curve", e)
		balls[text] = true
		// No ball is larger than all its balloons side by side, none smaller than
		// its largest balloon with another beside it.
		mean, largest := 0.0, 0.0
		for _, d := range e.Diameters() {
			mean += d / float64(2*(e.Small+e.Large))
			largest = max(largest, d)
		}
		assert.Less(t, curve.Ball*mean, 4*largest, "%+v", e)
		assert.Greater(t, curve.Ball*mean, largest, "%+v", e)
		for i := 1; i < nest.Points; i++ {
			assert.LessOrEqual(t, curve.Pitch[i], curve.Pitch[i-1], "%+v", e)
		}
	}
	assert.Len(t, balls, 8+6*4)
}

func TestEncodeKeepsTenThousandths(t *testing.T) {
	curve := nest.Curve{Ball: 2.41318}
	for i := range nest.Points {
		curve.Pitch[i] = 1 / float64(i+1)
		curve.Girth[i] = 3 + float64(i)/7
		curve.Coverage[i] = 1 - float64(i)/1000
	}
	text := table.Encode(curve)
	back := table.Decode(text)
	assert.InDelta(t, curve.Ball, back.Ball, 5.1e-5)
	for i := range nest.Points {
		assert.InDelta(t, curve.Pitch[i], back.Pitch[i], 5.1e-5)
		assert.InDelta(t, curve.Girth[i], back.Girth[i], 5.1e-5)
		assert.InDelta(t, curve.Coverage[i], back.Coverage[i], 5.1e-5)
	}
	assert.Equal(t, text, table.Encode(back), "reading and writing again changes nothing")
	assert.NotPanics(t, func() { table.Decode("") })
}

func TestMixedMeetsAlikeAtEqualSizes(t *testing.T) {
	assert.Equal(t, table.Encode(table.Alike(3)), table.Encode(table.Mixed(2, 1, 1)))
	assert.Equal(t, table.Mixed(1, 1, 3.5), table.Mixed(1, 1, 9), "level beyond the table")
	assert.NotEqual(t, fmt.Sprint(table.Mixed(1, 2, 1.6)), fmt.Sprint(table.Mixed(2, 1, 1.6)))
}
