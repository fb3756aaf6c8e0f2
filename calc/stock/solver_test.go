//go:build !js

package stock_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/stock"
)

const (
	solverInstances = 500
	solverSeed      = 20261125
	solverSeconds   = "60" // for one instance; the slowest seen takes well under one
)

// TestBagsMatchesGLPK compares 500 random purchases with GLPK's integer solver, an independent program. The cost must
// be equal, and with that cost the fewest left over must be equal too. GARLANDRY_EXTERNAL=1 makes a missing solver a
// failure.
func TestBagsMatchesGLPK(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		require.Empty(t, os.Getenv("GARLANDRY_EXTERNAL"),
			"GARLANDRY_EXTERNAL is set and glpsol is not installed: apt-get install glpk-utils")
		t.Skip(
			"glpsol is not installed, so 500 purchases are not compared with it here; to run it: apt-get install " +
				"glpk-utils, then go test ./calc/stock",
		)
	}
	random := rand.New(rand.NewPCG(solverSeed, 1))
	for instance := range solverInstances {
		missing, bags := randomPurchase(random)
		purchase, err := stock.Bags(missing, 0, bags)
		require.NoError(t, err)
		ours := fmt.Sprintf("seed %d, instance %d: need %d, bags %v, ours %+v", solverSeed, instance, missing, bags, purchase)

		cost := solve(t, solver, missing, bags, func(bag stock.Bag) int { return bag.PriceCents }, -1)
		require.Equal(t, cost, purchase.CostCents, ours)
		bought := solve(t, solver, missing, bags, func(bag stock.Bag) int { return bag.Holds }, cost)
		require.Equal(t, bought, purchase.Bought, ours)
	}
	t.Logf("%d random purchases cost and leave the same as by %s", solverInstances, filepath.Base(solver))
}

// randomPurchase generates 1 to 6 kinds of bag with common or arbitrary sizes, and prices per balloon that fall with
// the size, with some noise.
func randomPurchase(random *rand.Rand) (missing int, bags []stock.Bag) {
	usual := []int{1, 2, 5, 10, 12, 20, 25, 50, 72, 100, 144, 250}
	bags = make([]stock.Bag, 1+random.IntN(6))
	for i := range bags {
		holds := usual[random.IntN(len(usual))]
		if random.IntN(3) == 0 {
			holds = 1 + random.IntN(300)
		}
		each := 8 + random.Float64()*8 + 40/float64(holds)
		bags[i] = stock.Bag{Holds: holds, PriceCents: int(each * float64(holds))}
	}
	return 1 + random.IntN(2000), bags
}

var objective = regexp.MustCompile(`Objective:\s+\S+ = (\S+) \(MINimum\)`)

// solve returns the least sum of worth over the bags that cover missing, for at most budget cents unless budget is
// negative.
func solve(t *testing.T, solver string, missing int, bags []stock.Bag, worth func(stock.Bag) int, budget int) int {
	t.Helper()
	folder := t.TempDir()
	model, report := filepath.Join(folder, "bags.lp"), filepath.Join(folder, "report.txt")
	require.NoError(t, os.WriteFile(model, []byte(linearProgram(missing, bags, worth, budget)), 0o600))
	log, err := exec.Command(solver, "--lp", model, "--tmlim", solverSeconds, "-o", report).CombinedOutput()
	require.NoError(t, err, string(log))
	answer, err := os.ReadFile(report)
	require.NoError(t, err)
	require.Contains(t, string(answer), "INTEGER OPTIMAL", string(log))
	found := objective.FindSubmatch(answer)
	require.NotNil(t, found, string(answer))
	value, err := strconv.ParseFloat(string(found[1]), 64)
	require.NoError(t, err)
	whole := int(value + 0.5)
	assert.InDelta(t, value, whole, 1e-3)
	return whole
}

func linearProgram(missing int, bags []stock.Bag, worth func(stock.Bag) int, budget int) string {
	var text strings.Builder
	sum := func(name string, worth func(stock.Bag) int) {
		fmt.Fprintf(&text, " %s:", name)
		for i, bag := range bags {
			fmt.Fprintf(&text, " + %d x%d", worth(bag), i)
		}
	}
	text.WriteString("Minimize\n")
	sum("worth", worth)
	text.WriteString("\nSubject To\n")
	sum("covered", func(bag stock.Bag) int { return bag.Holds })
	fmt.Fprintf(&text, " >= %d\n", missing)
	if budget >= 0 {
		sum("paid", func(bag stock.Bag) int { return bag.PriceCents })
		fmt.Fprintf(&text, " <= %d\n", budget)
	}
	text.WriteString("General\n")
	for i := range bags {
		fmt.Fprintf(&text, " x%d", i)
	}
	text.WriteString("\nEnd\n")
	return text.String()
}
