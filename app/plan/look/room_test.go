package look_test

import (
	"testing"

	"garlandry/app/plan"
	"garlandry/app/plan/look"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// In a picture of all pieces none goes through another: every balloon of every piece is there, and pieces keep clear.
func TestARoomHasRoom(t *testing.T) {
	for name, j := range sampleJobs(t) {
		for i := range j.Pieces { // where they go by themselves
			j.Pieces[i].AtMM, j.Pieces[i].UpMM = nil, nil
		}
		p := plan.Design(j)
		balloons := 0
		for i := range p.Pieces {
			if l := p.Look(&p.Pieces[i], 0); l != nil {
				balloons += len(l.Balloons)
			}
		}
		room := p.Room(0)
		if balloons == 0 {
			assert.Nil(t, room, name)
			continue
		}
		require.Len(t, room.Balloons, balloons, name)
		pieces := room.Items[:len(room.Items)-len(j.Boxes)]
		for i, a := range pieces {
			for k, b := range pieces[:i] {
				assert.True(t, look.Clear(a.Area, b.Area), "%s: pieces %d and %d: %+v %+v", name, k, i, a, b)
			}
		}
	}
}

// A picture with fewer balloons keeps those of which most is seen, and stays as large as it was.
func TestFewerKeepsWhatIsSeen(t *testing.T) {
	l := &look.Look{RightMM: 1000, TopMM: 1000}
	for i := range 10 { // behind, wholly hidden by the next
		l.Balloons = append(l.Balloons, look.Balloon{XMM: float64(i)*100 + 50, YMM: 500, RadiusMM: 20, SizeIn: 5})
	}
	for i := range 10 {
		l.Balloons = append(l.Balloons, look.Balloon{XMM: float64(i)*100 + 50, YMM: 500, DepthMM: 100, RadiusMM: 50,
			SizeIn: 11})
	}
	fewer := l.Fewer(10)
	require.Len(t, fewer.Balloons, 10)
	for _, b := range fewer.Balloons {
		assert.Equal(t, 11, b.SizeIn, "%+v", b)
	}
	assert.Len(t, l.Balloons, 20, "the look itself stays whole")
	assert.Same(t, l, l.Fewer(20))
}

// Balloons are listed from back to front, as they are painted.
func TestLooksArePaintedFromTheBack(t *testing.T) {
	p := plan.Design(sampleJobs(t)["reading-room"])
	l := p.Look(&p.Pieces[0], 0)
	for i := 1; i < len(l.Balloons); i++ {
		require.LessOrEqual(t, l.Balloons[i-1].DepthMM, l.Balloons[i].DepthMM)
	}
}

// A look is as thick as its balloons reach from front to back.
func TestThickness(t *testing.T) {
	l := &look.Look{Balloons: []look.Balloon{{DepthMM: -100, RadiusMM: 50}, {DepthMM: 200, RadiusMM: 130},
		{DepthMM: 300, RadiusMM: 20}}}
	assert.InDelta(t, 480, l.ThickMM(), 1e-9)
	assert.Zero(t, (&look.Look{}).ThickMM())
}
