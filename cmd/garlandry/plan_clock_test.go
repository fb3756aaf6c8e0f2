package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCLIPlanHasTheClock checks that the JSON has the complete clock: tasks with start, end and people, odds, fixes and
// cut line.
func TestCLIPlanHasTheClock(t *testing.T) {
	code, out, complaint := cli("plan", samples+"reading-room.json", "--json")
	require.Equal(t, 0, code, complaint)
	var got struct{ Clock clockJSON }
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	c := got.Clock
	assert.Equal(t, "2027-05-08T11:30", string(c.Doors))
	assert.Equal(t, "2027-05-08T07:00", string(c.In))
	assert.True(t, c.Odds > 0 && c.Odds < 1, "%v", c.Odds)
	assert.Less(t, c.Half, c.NineInTen)
	assert.Len(t, c.People, 3)
	require.Greater(t, len(c.Tasks), 40)
	for _, task := range c.Tasks {
		assert.Less(t, task.Start, task.End, task.Title)
		assert.NotEmpty(t, task.People, task.Title)
		assert.GreaterOrEqual(t, task.Hands, 1)
	}
	require.NotEmpty(t, c.Fixes)
	assert.Greater(t, c.Fixes[0].Odds, c.Odds)
	require.NotEmpty(t, c.CutLine)
	assert.Equal(t, "could", c.CutLine[0].Priority)
	_, again, _ := cli("plan", samples+"reading-room.json", "--json")
	assert.Equal(t, out, again, "the same file gives the same clock")
}

func TestCLIPlanSaysWhatIsMissing(t *testing.T) {
	_, out, _ := cli("plan", samples+"allotment-supper.json")
	assert.Contains(t, out, "needs 2 people at once; 1 is there")
	assert.Contains(t, out, "One more person from ")
	assert.Contains(t, out, "Do “Put up Gate garland” with one pair of hands")
	assert.Contains(t, out, "LEAVE OUT FIRST", "the rest has odds and a cut line")
}
