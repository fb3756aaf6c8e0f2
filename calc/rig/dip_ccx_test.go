//go:build !js

package rig_test

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/rig"
)

// TestDipAgainstFiniteElements compares the elastic line with a finite-element run of CalculiX (Debian package
// calculix-ccx). It uses three-node beams that the program expands into bricks, so it shares nothing with this
// package's brackets. They must agree within 1 % everywhere. GARLANDRY_EXTERNAL=1 makes a missing program a failure.
func TestDipAgainstFiniteElements(t *testing.T) {
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		require.Empty(t, os.Getenv("GARLANDRY_EXTERNAL"),
			"GARLANDRY_EXTERNAL is set and ccx is not installed: apt-get install calculix-ccx")
		t.Skip(
			"CalculiX is not installed, so the bar cannot be run by finite elements; run: apt-get install calculix-ccx, " +
				"then go test ./calc/rig -run FiniteElements",
		)
	}
	steel, _ := rig.FindMaterial("steel")
	aluminium, _ := rig.FindMaterial("aluminium")
	thin := rig.Tube{OuterMM: 28, WallMM: 1.5, Material: aluminium}
	stout := rig.Tube{OuterMM: 33.7, WallMM: 2.6, Material: steel}
	point := func(grams, at float64) rig.Load { return rig.Load{MassG: grams, AtMM: at} }
	spread := func(grams, from, to float64) rig.Load {
		return rig.Load{MassG: grams, Spread: true, FromMM: from, ToMM: to}
	}
	for _, row := range []struct {
		name              string
		tube              rig.Tube
		span, left, right float64
		loads             []rig.Load
	}{
		{"point at the middle", thin, 3000, 0, 0, []rig.Load{point(2000, 1500)}},
		{"point off the middle", stout, 3000, 0, 0, []rig.Load{point(5000, 750)}},
		{"spread all along", thin, 2400, 0, 0, []rig.Load{spread(1800, 0, 2400)}},
		{"spread over a part", stout, 3000, 0, 0, []rig.Load{spread(4000, 300, 1500)}},
		{"overhang with a point", thin, 2000, 0, 600, []rig.Load{point(1500, 2600)}},
		{"overhangs with spread loads", stout, 2000, 500, 700, []rig.Load{spread(9000, -500, 0), spread(5000, 2000, 2700)}},
		{"a sign, a cloth and a swag", thin, 2800, 300, 500, []rig.Load{point(2000, 1200), spread(1800, 0, 2800),
			point(400, -300), spread(600, 2400, 3300)}},
	} {
		t.Run(row.name, func(t *testing.T) {
			bar, err := rig.TubeBar(row.span, row.tube, 0, 0)
			require.NoError(t, err)
			bar.LeftMM, bar.RightMM = row.left, row.right
			d := dip(t, bar, row.loads...)
			mesh := meshOf(bar)
			sunk := runDeck(t, ccx, mesh, row.tube, append(row.loads, bar.Own()))

			most := 0.0
			for _, v := range sunk {
				most = max(most, math.Abs(v))
			}
			require.Greater(t, most, 0.5, "the run must bend the bar")
			worst := 0.0
			for _, p := range d.Curve {
				off := math.Abs(mesh.between(sunk, p.AtMM) - p.DipMM)
				assert.LessOrEqual(t, off, 0.01*most, "at %.0f mm", p.AtMM)
				worst = max(worst, off/most)
			}
			t.Logf("%.2f mm at most, nowhere more than %.3f %% of it apart", most, 100*worst)
			assert.InEpsilon(t, largestIn(bar, d.AtMM, mesh.nodes, sunk), d.DipMM, 0.01)
		})
	}
}

// largestIn returns the largest dip of the run on the stretch that contains at.
func largestIn(b rig.Bar, at float64, nodes, sunk []float64) float64 {
	from, to := 0.0, b.SpanMM
	if at < 0 {
		from, to = -b.LeftMM, 0
	}
	if at > b.SpanMM {
		from, to = b.SpanMM, b.SpanMM+b.RightMM
	}
	most := math.Inf(-1)
	for i, x := range nodes {
		if x >= from-1e-9 && x <= to+1e-9 {
			most = max(most, sunk[i])
		}
	}
	return most
}

// mesh has a node every 25 mm, ends included, and three nodes per element.
type mesh struct {
	bar   rig.Bar
	nodes []float64
}

const nodeEveryMM = 25.0

func meshOf(b rig.Bar) mesh {
	m := mesh{bar: b}
	for x := -b.LeftMM; x <= b.SpanMM+b.RightMM+1e-9; x += nodeEveryMM {
		m.nodes = append(m.nodes, x)
	}
	return m
}

// between interpolates the values at x linearly between the nodes beside it.
func (m mesh) between(values []float64, x float64) float64 {
	along := (x - m.nodes[0]) / nodeEveryMM
	i := min(int(along), len(values)-2)
	part := along - float64(i)
	return values[i]*(1-part) + values[i+1]*part
}

func (m mesh) nodeAt(x float64) int {
	for i, at := range m.nodes {
		if math.Abs(at-x) < 1e-6 {
			return i + 1
		}
	}
	return 0
}

// forces distributes the loads over the nodes: spread ones by Simpson's rule, the consistent shares of a three-node
// element.
func (m mesh) forces(t *testing.T, loads []rig.Load) []float64 {
	forces := make([]float64, len(m.nodes)+1)
	for _, l := range loads {
		newton := l.MassG / 1000 * gravity
		if !l.Spread {
			node := m.nodeAt(l.AtMM)
			require.NotZero(t, node, "a load must be on a node")
			forces[node] += newton
			continue
		}
		first, last := m.nodeAt(l.FromMM), m.nodeAt(l.ToMM)
		require.True(t, first%2 == 1 && last%2 == 1 && last > first, "a spread load must end at element ends")
		each := newton / float64((last-first)/2)
		for n := first; n < last; n += 2 {
			forces[n] += each / 6
			forces[n+1] += each * 4 / 6
			forces[n+2] += each / 6
		}
	}
	return forces
}

func (m mesh) deck(t *testing.T, tube rig.Tube, loads []rig.Load) string {
	var b strings.Builder
	b.WriteString("*NODE, NSET=ALL\n")
	for i, x := range m.nodes {
		fmt.Fprintf(&b, "%d, %.6f, 0., 0.\n", i+1, x)
	}
	b.WriteString("*ELEMENT, TYPE=B32R, ELSET=BAR\n")
	for e, n := 1, 1; n+2 <= len(m.nodes); e, n = e+1, n+2 {
		fmt.Fprintf(&b, "%d, %d, %d, %d\n", e, n, n+1, n+2)
	}
	fmt.Fprintf(&b, "*MATERIAL, NAME=TUBE\n*ELASTIC\n%.1f, 0.3\n", tube.Material.ElasticMPa)
	fmt.Fprintf(&b, "*BEAM SECTION, ELSET=BAR, MATERIAL=TUBE, SECTION=PIPE\n%.4f, %.4f\n0., 1., 0.\n", tube.OuterMM/2,
		tube.WallMM)
	left, right := m.nodeAt(0), m.nodeAt(m.bar.SpanMM)
	require.True(t, left > 0 && right > 0)
	// Free to turn in the plane of the loads; fixed against rolling and drifting.
	fmt.Fprintf(&b, "*BOUNDARY\n%d, 1, 4\n%d, 2, 3\n", left, right)
	b.WriteString("*STEP\n*STATIC\n*CLOAD\n")
	for n, newton := range m.forces(t, loads) {
		if newton != 0 {
			fmt.Fprintf(&b, "%d, 3, %.9f\n", n, -newton)
		}
	}
	b.WriteString("*NODE PRINT, NSET=ALL\nU\n*END STEP\n")
	return b.String()
}

// runDeck returns how far each node sinks.
func runDeck(t *testing.T, ccx string, m mesh, tube rig.Tube, loads []rig.Load) []float64 {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "bar.inp"), []byte(m.deck(t, tube, loads)), 0o600))
	ctx, cancel := context.WithTimeout(t.Context(), 2*time.Minute)
	defer cancel()
	run := exec.CommandContext(ctx, ccx, "-i", "bar")
	run.Dir = dir
	run.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	out, err := run.CombinedOutput()
	require.NoError(t, err, "%s", out)
	printed, err := os.ReadFile(filepath.Join(dir, "bar.dat"))
	require.NoError(t, err, "%s", out)

	sunk := make([]float64, len(m.nodes))
	seen := 0
	lines := bufio.NewScanner(bytes.NewReader(printed))
	for lines.Scan() {
		words := strings.Fields(lines.Text())
		if len(words) != 4 {
			continue
		}
		node, err := strconv.Atoi(words[0])
		if err != nil || node < 1 || node > len(sunk) {
			continue
		}
		z, err := strconv.ParseFloat(words[3], 64)
		require.NoError(t, err)
		sunk[node-1] = -z
		seen++
	}
	require.NoError(t, lines.Err())
	require.Equal(t, len(sunk), seen, "every node must be printed: %s", printed)
	return sunk
}
