package look_test

import (
	"bufio"
	"cmp"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the goldens")

const (
	goldenDir   = "../../../testdata/goldens/look"
	sampled     = 16  // balloons of a piece that a golden lists
	toleranceMM = 1.0 // and half a millimetre of rounding
)

// shown is a balloon as a golden has it.
type shown struct {
	layer, cluster, sizeIn int
	colour                 string
	x, y, depth, radius    float64
}

// Goldens are pictures as geometry: of every sixteenth or so of a piece's balloons the place to the millimetre, and of
// all of them the number and the means. How a picture is drawn may change freely.
func TestPicturesStandWhereTheyStood(t *testing.T) {
	want := map[string]bool{}
	for name, j := range sampleJobs(t) {
		p := plan.Design(j)
		file := filepath.Join(goldenDir, name+".txt")
		want[name+".txt"] = true
		t.Run(name, func(t *testing.T) {
			if *update {
				require.NoError(t, os.MkdirAll(goldenDir, 0o755))
				require.NoError(t, os.WriteFile(file, []byte(writeLooks(&p)), 0o644))
			}
			stored, err := os.ReadFile(file)
			require.NoError(t, err, "run go test ./app/plan/look -update and read what changed")
			compareLooks(t, &p, string(stored))
		})
	}
	files, err := os.ReadDir(goldenDir)
	require.NoError(t, err)
	for _, f := range files {
		assert.True(t, want[f.Name()], "%s belongs to no job", f.Name())
	}
}

func writeLooks(p *plan.Plan) string {
	var b strings.Builder
	for i := range p.Pieces {
		l := p.Look(&p.Pieces[i], 0)
		if l == nil {
			fmt.Fprintf(&b, "PIECE %s none\n", p.Pieces[i].Piece.ID)
			continue
		}
		m := meansOf(l)
		fmt.Fprintf(&b, "PIECE %s %d %.0f %.0f %.0f %.0f\n", p.Pieces[i].Piece.ID, len(l.Balloons), m[0], m[1], m[2], m[3])
		list := listed(l)
		for k := 0; k < len(list); k += (len(list) + sampled - 1) / sampled {
			s := &list[k]
			fmt.Fprintf(&b, "%d %d %d %s %.0f %.0f %.0f %.0f\n", s.layer, s.cluster, s.sizeIn, s.colour, s.x, s.y, s.depth,
				s.radius)
		}
	}
	return b.String()
}

// meansOf returns the mean place of a look's balloons and their mean distance from it.
func meansOf(l *look.Look) (m [4]float64) {
	n := float64(len(l.Balloons))
	for _, b := range l.Balloons {
		m[0], m[1], m[2] = m[0]+b.XMM/n, m[1]+b.YMM/n, m[2]+b.DepthMM/n
	}
	for _, b := range l.Balloons {
		m[3] += math.Sqrt((b.XMM-m[0])*(b.XMM-m[0])+(b.YMM-m[1])*(b.YMM-m[1])+(b.DepthMM-m[2])*(b.DepthMM-m[2])) / n
	}
	return m
}

// listed lists the balloons cluster by cluster.
func listed(l *look.Look) []shown {
	list := make([]shown, len(l.Balloons))
	for i, b := range l.Balloons {
		list[i] = shown{b.Layer, b.Cluster, b.SizeIn, l.Colours[b.Colour].ID, b.XMM, b.YMM, b.DepthMM, b.RadiusMM}
	}
	slices.SortFunc(list, func(a, b shown) int {
		return cmp.Or(a.layer-b.layer, a.cluster-b.cluster, a.sizeIn-b.sizeIn, strings.Compare(a.colour, b.colour),
			cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y), cmp.Compare(a.depth, b.depth))
	})
	return list
}

// compareLooks checks that the plan's pictures are those of a golden.
func compareLooks(t *testing.T, p *plan.Plan, stored string) {
	t.Helper()
	lines := bufio.NewScanner(strings.NewReader(stored))
	var pieces []string
	var list []shown
	for lines.Scan() {
		line := lines.Text()
		piece, is := strings.CutPrefix(line, "PIECE ")
		if !is {
			var s shown
			_, err := fmt.Sscan(line, &s.layer, &s.cluster, &s.sizeIn, &s.colour, &s.x, &s.y, &s.depth, &s.radius)
			require.NoError(t, err, line)
			i := slices.IndexFunc(list, s.near)
			if assert.GreaterOrEqual(t, i, 0, "%s: no balloon there any more: %s", pieces[len(pieces)-1], line) {
				list = slices.Delete(list, i, i+1)
			}
			continue
		}
		id, rest, _ := strings.Cut(piece, " ")
		pieces = append(pieces, id)
		at := slices.IndexFunc(p.Pieces, func(c count.PieceCount) bool { return c.Piece.ID == id })
		require.GreaterOrEqual(t, at, 0, id)
		l := p.Look(&p.Pieces[at], 0)
		if rest == "none" {
			assert.Nil(t, l, id)
			continue
		}
		require.NotNil(t, l, id)
		var n int
		var m [4]float64
		_, err := fmt.Sscan(rest, &n, &m[0], &m[1], &m[2], &m[3])
		require.NoError(t, err, line)
		assert.Len(t, l.Balloons, n, id)
		for k, mean := range meansOf(l) {
			assert.InDelta(t, m[k], mean, toleranceMM+0.5, "%s: mean %d", id, k)
		}
		list = listed(l)
	}
	assert.Len(t, pieces, len(p.Pieces), "run go test ./app/plan/look -update and read what changed")
}

// near reports whether two balloons are the same and within the tolerance of each other.
func (s shown) near(o shown) bool {
	if s.layer != o.layer || s.cluster != o.cluster || s.sizeIn != o.sizeIn || s.colour != o.colour {
		return false
	}
	for _, apart := range []float64{s.x - o.x, s.y - o.y, s.depth - o.depth, s.radius - o.radius} {
		if math.Abs(apart) > toleranceMM+0.5 {
			return false
		}
	}
	return true
}
