package look_test

import (
	"fmt"
	"math"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan/look"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// aPiece returns the look of a piece of a size whose lowest point is at a height: one balloon in each corner.
func aPiece(wideMM, highMM, bottomMM float64, stands bool) *look.Look {
	l := &look.Look{Stands: stands, LeftMM: -wideMM / 2, RightMM: wideMM / 2, BottomMM: bottomMM,
		TopMM: bottomMM + highMM, Colours: []job.Colour{{ID: "coral"}}}
	const r = 20
	for _, x := range []float64{l.LeftMM + r, l.RightMM - r} {
		for _, y := range []float64{l.BottomMM + r, l.TopMM - r} {
			l.Balloons = append(l.Balloons, look.Balloon{XMM: x, YMM: y, RadiusMM: r, SizeIn: 5})
		}
	}
	return l
}

// at makes a place that was said.
func at(mm float64) *float64 { return &mm }

// What has a place stands exactly there; what has none keeps clear of everything; and every balloon is in the room.
func TestPlacesOfARoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pieces []look.Placed
		balloons := 0
		for i := range rapid.IntRange(1, 8).Draw(t, "pieces") {
			stands := rapid.Bool().Draw(t, "stands")
			bottom := 0.0
			if !stands {
				bottom = rapid.Float64Range(-900, 900).Draw(t, "bottom")
			}
			p := look.Placed{Entity: fmt.Sprint("piece/", i), Look: aPiece(rapid.Float64Range(80, 6000).Draw(t, "wide"),
				rapid.Float64Range(80, 3000).Draw(t, "high"), bottom, stands)}
			if rapid.Bool().Draw(t, "placed") {
				p.AtMM = at(rapid.Float64Range(-5000, 20000).Draw(t, "at"))
			}
			if rapid.Bool().Draw(t, "raised") {
				p.UpMM = at(rapid.Float64Range(-500, 3000).Draw(t, "up"))
			}
			balloons += len(p.Look.Balloons)
			pieces = append(pieces, p)
		}
		var hall look.Hall
		for i := range rapid.IntRange(0, 3).Draw(t, "boxes") {
			hall.Boxes = append(hall.Boxes, job.Box{ID: fmt.Sprint(i),
				Kind:    rapid.SampledFrom([]string{"door", "table"}).Draw(t, "kind"),
				AtMM:    rapid.Float64Range(-1000, 9000).Draw(t, "box"),
				WidthMM: rapid.Float64Range(50, 3000).Draw(t, "box width"), HeightMM: 2000})
		}
		room := look.Room(pieces, hall)
		require.Len(t, room.Balloons, balloons)
		require.Len(t, room.Items, len(pieces)+len(hall.Boxes))
		for i, p := range pieces {
			item := room.Items[i]
			assert.Equal(t, p.Entity, item.Entity)
			assert.Equal(t, p.AtMM == nil, item.Itself)
			if p.AtMM != nil {
				assert.InDelta(t, *p.AtMM, item.MiddleMM(), 1)
			}
			if p.UpMM != nil {
				assert.InDelta(t, *p.UpMM, item.BottomMM, 1)
			}
			drawnAt(t, room, i)
			for k, other := range room.Items {
				table := k >= len(pieces) && hall.Boxes[k-len(pieces)].Kind == "table" // it may stand before one, or on it
				if item.Itself && k != i && !table {
					assert.True(t, look.Clear(item.Area, other.Area), "%+v and %+v", item, other)
				}
			}
		}
	})
}

// drawnAt checks that the balloons of a piece reach as far as its area, and no further.
func drawnAt(t asserting, room *look.Look, piece int) {
	t.Helper()
	seen := look.Area{LeftMM: math.Inf(1), RightMM: math.Inf(-1), BottomMM: math.Inf(1), TopMM: math.Inf(-1)}
	for _, b := range room.Balloons {
		if b.Piece == piece {
			seen.LeftMM, seen.RightMM = min(seen.LeftMM, b.XMM-b.RadiusMM), max(seen.RightMM, b.XMM+b.RadiusMM)
			seen.BottomMM, seen.TopMM = min(seen.BottomMM, b.YMM-b.RadiusMM), max(seen.TopMM, b.YMM+b.RadiusMM)
		}
	}
	want := room.Items[piece].Area
	assert.InDeltaSlice(t, []float64{want.LeftMM, want.RightMM, want.BottomMM, want.TopMM},
		[]float64{seen.LeftMM, seen.RightMM, seen.BottomMM, seen.TopMM}, 1)
}

func TestAutomaticPlaces(t *testing.T) {
	for _, tt := range []struct {
		name   string
		pieces []look.Placed
		hall   look.Hall
		want   []float64 // middles, and the lowest point of the last one
	}{
		{"in a row, 250 mm apart",
			[]look.Placed{{Look: aPiece(1000, 2000, 0, true)}, {Look: aPiece(500, 2000, 0, true)}}, look.Hall{},
			[]float64{500, 1500, 0}},
		{"what hangs goes above what is low",
			[]look.Placed{{Look: aPiece(1000, 500, 0, true)}, {Look: aPiece(2000, 500, -200, false)}}, look.Hall{},
			[]float64{500, 1000, 1900}},
		{"and behind what is high",
			[]look.Placed{{Look: aPiece(1000, 2500, 0, true)}, {Look: aPiece(2000, 500, -200, false)}}, look.Hall{},
			[]float64{500, 2250, 1900}},
		{"the others stay when one is placed far away",
			[]look.Placed{{Look: aPiece(1000, 2000, 0, true)}, {Look: aPiece(1000, 2000, 0, true), AtMM: at(8000)},
				{Look: aPiece(1000, 2000, 0, true)}}, look.Hall{}, []float64{500, 8000, 3000, 0}},
		{"one steps aside for what is placed on it",
			[]look.Placed{{Look: aPiece(1000, 2000, 0, true)}, {Look: aPiece(1000, 2000, 0, true), AtMM: at(500)}},
			look.Hall{}, []float64{1750, 500, 0}},
		{"and for a door", []look.Placed{{Look: aPiece(1000, 2000, 0, true)}},
			look.Hall{Boxes: []job.Box{{Kind: "door", AtMM: 450, WidthMM: 900, HeightMM: 2000}}}, []float64{1650, 0}},
		{"a low ceiling brings down what hangs", []look.Placed{{Look: aPiece(1000, 600, 0, false)}},
			look.Hall{HeightMM: 2300}, []float64{500, 1700}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			room := look.Room(tt.pieces, tt.hall)
			var got []float64
			for _, item := range room.Items[:len(tt.pieces)] {
				got = append(got, item.MiddleMM())
			}
			last := room.Items[len(tt.pieces)-1]
			assert.InDeltaSlice(t, tt.want, append(got, last.BottomMM), 1e-6)
		})
	}
}

// A small piece far from a large one stays in a picture of few balloons.
func TestFewerKeepsEveryPiece(t *testing.T) {
	large := aPiece(9000, 3000, 0, true)
	for i := range 400 {
		large.Balloons = append(large.Balloons, look.Balloon{XMM: float64(i%40)*200 - 4000, YMM: float64(i/40)*280 + 150,
			RadiusMM: 140, SizeIn: 11})
	}
	room := look.Room([]look.Placed{{Look: large}, {Look: aPiece(100, 100, 0, true), AtMM: at(60000)}}, look.Hall{}).
		Fewer(40)
	require.Len(t, room.Balloons, 40)
	n := 0
	for _, b := range room.Balloons {
		n += b.Piece
	}
	assert.Equal(t, 4, n)
}

// In a long room each of twelve like pieces keeps its share of few balloons, also where they are placed and so painted
// one after another: the first are not whole and the last full of holes.
func TestFewerThinsAllPiecesAlike(t *testing.T) {
	pieces := make([]look.Placed, 12)
	for i := range pieces {
		pieces[i] = look.Placed{Look: aPiece(4000, 600, 0, true), AtMM: at(float64(i) * 4500)}
		pieces[i].Look.Balloons = nil
		for k := range 80 {
			pieces[i].Look.Balloons = append(pieces[i].Look.Balloons, look.Balloon{XMM: float64(k)*48 - 1896,
				YMM: float64(k%3)*180 + 120, DepthMM: float64(k % 3), RadiusMM: 120, SizeIn: 11})
		}
	}
	have := make([]int, len(pieces))
	for _, b := range look.Room(pieces, look.Hall{}).Fewer(480).Balloons {
		have[b.Piece]++
	}
	for _, n := range have {
		assert.InDelta(t, 40, n, 8, "%v", have)
	}
}

// Where pieces overlap, all of the later one is painted after all of the earlier one.
func TestALaterPieceStandsInFront(t *testing.T) {
	deep := aPiece(1000, 1000, 0, true)
	for i := range deep.Balloons {
		deep.Balloons[i].DepthMM = 400
	}
	room := look.Room([]look.Placed{{Look: deep, AtMM: at(0)},
		{Look: aPiece(500, 500, 0, true), AtMM: at(100)}}, look.Hall{})
	for i := 1; i < len(room.Balloons); i++ {
		assert.LessOrEqual(t, room.Balloons[i-1].Piece, room.Balloons[i].Piece)
	}
}

func TestSnap(t *testing.T) {
	hall := look.Hall{WidthMM: 8000, HeightMM: 3000,
		Boxes: []job.Box{{ID: "table", Kind: "table", AtMM: 6000, WidthMM: 2000, HeightMM: 750},
			{ID: "lamp", Kind: "other", AtMM: 6050, WidthMM: 100, HeightMM: 100, UpMM: 2000}}}
	room := look.Room([]look.Placed{{Entity: "piece/arch", Look: aPiece(2000, 2400, 0, true), AtMM: at(2000)},
		{Entity: "piece/it", Look: aPiece(500, 400, 0, true), AtMM: at(4400)}}, hall)
	for _, tt := range []struct {
		name       string
		x, y       float64 // of its middle and its lowest point, as dragged
		wantX      float64
		wantBottom float64
	}{
		{"nothing near: to the millimetre", 3602.4, 1203.6, 3602, 1204},
		{"its left edge to the arch's right", 3300, 1000, 3250, 1000},
		{"its right edge to the arch's left", 690, 1000, 750, 1000},
		{"its middle to the arch's", 2080, 1000, 2000, 1000},
		{"not back to where it was", 4440, 1000, 4440, 1000},
		{"to the wall", 160, 1000, 250, 1000},
		{"to the other wall", 7790, 1000, 7750, 1000},
		{"to the room's middle", 3960, 1000, 4000, 1000},
		{"to the floor, from above and from below it", 3600, 95, 3600, 0},
		{"to the floor from below", 3600, -99, 3600, 0},
		{"just too far from the floor", 3600, 101, 3600, 101},
		{"onto the table, at its middle, which is nearer than that of the lamp", 6020, 800, 6000, 750},
		{"not onto a table that it is beside", 3600, 780, 3600, 780},
		{"to the ceiling", 3600, 2560, 3600, 2600},
	} {
		t.Run(tt.name, func(t *testing.T) {
			x, bottom := room.Snap("piece/it", look.Area{LeftMM: tt.x - 250, RightMM: tt.x + 250, BottomMM: tt.y,
				TopMM: tt.y + 400})
			assert.Equal(t, []float64{tt.wantX, tt.wantBottom}, []float64{x, bottom})
		})
	}
}

func TestCovers(t *testing.T) {
	big := aPiece(1000, 1000, 0, true)
	for i := range big.Balloons {
		big.Balloons[i].RadiusMM = 150
	}
	room := look.Room([]look.Placed{{Look: big, AtMM: at(500)}}, look.Hall{})
	assert.Equal(t, 4, room.Covers(0, look.Area{RightMM: 1000, TopMM: 1000}))
	assert.Equal(t, 2, room.Covers(0, look.Area{RightMM: 100, TopMM: 1000}), "its left half")
	assert.Equal(t, 0, room.Covers(0, look.Area{LeftMM: 200, RightMM: 800, BottomMM: 200, TopMM: 800}), "a door between")
	assert.Equal(t, 0, room.Covers(0, look.Area{LeftMM: 1125, RightMM: 2000, TopMM: 1000}), "it only touches")
	assert.Equal(t, 0, room.Covers(1, look.Area{RightMM: 1000, TopMM: 1000}), "another item")
}
