package genetic_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"garlandry/calc/crew/genetic"
)

// line is the sequencing of tasks on one machine: it minimises total weighted completion, whose optimum is known (W. E.
// Smith, "Various optimizers for single-stage production", Naval Research Logistics Quarterly 3, 1956: by falling
// weight over length). A task with gene 1 takes a minute longer.
type line struct {
	length, weight []int
	genes          int
	bound          int
	calls          int
	best           genetic.Plan // the cheapest plan of Forward so far
}

func (l *line) Tasks() int       { return len(l.length) }
func (l *line) Genes(int) int    { return l.genes }
func (l *line) Weight(i int) int { return l.weight[i] }
func (l *line) Bound() int       { return l.bound }

func (l *line) minutes(task int, plan *genetic.Plan) int {
	if len(plan.Genes) > 0 && plan.Genes[task] == 1 {
		return l.length[task] + 1
	}
	return l.length[task]
}

// order returns the tasks by key, then by number.
func (l *line) order(keys []int) []int {
	var order []int
	for task := range keys {
		at := len(order)
		for at > 0 && keys[order[at-1]] > keys[task] {
			at--
		}
		order = append(order[:at], append([]int{task}, order[at:]...)...)
	}
	return order
}

func (l *line) Forward(keys []int, plan *genetic.Plan) {
	l.calls++
	now := 0
	plan.Cost = 0
	for _, task := range l.order(keys) {
		plan.Start[task] = now
		now += l.minutes(task, plan)
		plan.Finish[task] = now
		plan.Cost += now * l.weight[task]
	}
	if l.best.Start == nil || plan.Cost < l.best.Cost {
		l.best = genetic.NewPlan(len(keys), l.genes > 1)
		plan.Copy(&l.best)
	}
}

// Backward puts the lowest key last. It ends where a forward plan would end.
func (l *line) Backward(keys []int, plan *genetic.Plan) {
	l.calls++
	now := 0
	for task := range keys {
		now += l.minutes(task, plan)
	}
	plan.Cost = 0
	for _, task := range l.order(keys) {
		plan.Finish[task] = now
		plan.Cost += now * l.weight[task]
		now -= l.minutes(task, plan)
		plan.Start[task] = now
	}
}

// smith returns the least cost: by falling weight over length.
func (l *line) smith() int {
	keys := make([]int, len(l.length))
	for a := range keys {
		for b := range keys {
			if first, then := l.weight[b]*l.length[a], l.weight[a]*l.length[b]; first > then || first == then && b < a {
				keys[a]++
			}
		}
	}
	plan := genetic.NewPlan(len(keys), false)
	(&line{length: l.length, weight: l.weight}).Forward(keys, &plan)
	return plan.Cost
}

func example(tasks, genes int) *line {
	l := &line{genes: genes}
	for task := range tasks {
		l.length = append(l.length, 1+task*7%11)
		l.weight = append(l.weight, 1+task*5%13)
	}
	return l
}

func searched(l *line, seed uint64, schedules int) *genetic.Search {
	first := genetic.NewPlan(len(l.length), l.genes > 1)
	for task := range l.length {
		first.Start[task] = task
	}
	search := genetic.New(l, seed, schedules, []genetic.Plan{first})
	search.Improve(schedules)
	return search
}

func TestFindsTheOptimumOfSmith(t *testing.T) {
	for _, row := range []struct {
		name         string
		tasks, genes int
	}{
		{"one task", 1, 1},
		{"two tasks", 2, 1},
		{"eight tasks", 8, 1},
		{"eight tasks that may be done slowly", 8, 2},
		{"twelve tasks", 12, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			l := example(row.tasks, row.genes)
			l.bound = l.smith()
			search := searched(l, 1, 20_000)
			assert.Equal(t, l.bound, l.best.Cost)
			assert.True(t, search.Proven(), "it must reach the bound, which is the optimum")
		})
	}
}

func TestStopsAtTheBound(t *testing.T) {
	l := example(9, 1)
	l.bound = 1 << 40
	search := searched(l, 1, 500)
	assert.True(t, search.Proven())
	assert.Equal(t, 1, search.Used(), "the first plan must reach a bound that all plans reach")
	assert.Equal(t, 1, l.calls)
}

// TestLawsOfTheSearch checks that every schedule is counted, that as many as requested are generated, that the search
// knows the cost of the best one, and that the same seed gives the same plan.
func TestLawsOfTheSearch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := &line{genes: rapid.IntRange(1, 3).Draw(t, "genes")}
		tasks := rapid.IntRange(1, 15).Draw(t, "tasks")
		l.length = rapid.SliceOfN(rapid.IntRange(1, 9), tasks, tasks).Draw(t, "length")
		l.weight = rapid.SliceOfN(rapid.IntRange(0, 9), tasks, tasks).Draw(t, "weight")
		l.bound = -1
		seed := rapid.Uint64().Draw(t, "seed")
		budget := rapid.IntRange(1, 900).Draw(t, "budget")
		search := searched(l, seed, budget)
		best := l.best
		if search.Used() != budget || l.calls != budget {
			t.Fatalf("%d used and %d generated of %d", search.Used(), l.calls, budget)
		}
		if best.Cost < l.smith() {
			t.Fatalf("cost %d is below the optimum %d", best.Cost, l.smith())
		}
		again := &line{length: l.length, weight: l.weight, genes: l.genes, bound: -1}
		searched(again, seed, budget)
		if !assert.ObjectsAreEqual(again.best, best) {
			t.Fatal("the same seed gives another plan")
		}
		for _, bound := range []int{best.Cost, best.Cost - 1} {
			l.bound = bound
			if search.Proven() != (best.Cost <= bound) {
				t.Fatalf("a best cost of %d with a bound of %d", best.Cost, bound)
			}
		}
	})
}
