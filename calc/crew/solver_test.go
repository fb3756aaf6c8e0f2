//go:build !js

package crew_test

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

	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

const (
	solverJobs = 50
	solverSeed = 20261125
)

// TestSmallJobsMatchGecode compares 50 small random jobs with MiniZinc and the Gecode solver, which are independent
// programs. The jobs have shared things, people of two skills who come and go, and varying hands. The makespans must be
// equal. GARLANDRY_EXTERNAL=1 makes a missing solver a failure.
func TestSmallJobsMatchGecode(t *testing.T) {
	solver, err := exec.LookPath("minizinc")
	if err != nil {
		require.Empty(t, os.Getenv("GARLANDRY_EXTERNAL"),
			"GARLANDRY_EXTERNAL is set and minizinc is not installed: apt-get install minizinc")
		t.Skip(
			"minizinc is missing, so 50 small jobs are not compared with it; " +
				"to run: apt-get install minizinc, then go test ./calc/crew",
		)
	}
	if testing.Short() {
		t.Skip("-short: 50 runs of a solver take about half a minute; run without -short")
	}
	optimal, late := 0, 0.0
	for number := range uint64(solverJobs) {
		job := smallJob(solverSeed + number)
		search, err := crew.NewSearch(job, number, 200)
		require.NoError(t, err)
		searched := search.Improve(200)
		plan, _, err := crew.Settle(job, crew.Options{Seed: number, Schedules: 400, Runs: 200})
		require.NoError(t, err)
		ours := search.Prove(5_000_000)
		require.True(t, ours.Proven, "job %d", number)
		checkCrew(t, job, ours, true)
		require.Equal(t, gecode(t, solver, job, ours.Finish), ours.Finish, "seed %d: %+v", solverSeed+number, job)
		if searched.Finish == ours.Finish {
			optimal++
		}
		late += float64(plan.Finish-ours.Finish) / float64(ours.Finish)
	}
	t.Logf(
		"figure: %d random jobs take as long as by %s with Gecode; without the proof 200 schedules find %d of the "+
			"optima, and plans settled on by their odds are %.2f %% above them on average",
		solverJobs, filepath.Base(solver), optimal, 100*late/solverJobs,
	)
}

// smallJob returns a job with one place, and minutes that an integer solver can enumerate.
func smallJob(seed uint64) crew.Job {
	r := rand.New(rand.NewPCG(seed, 3))
	job := crew.Job{Doors: 60, Things: []crew.Thing{{Key: "pump", Count: 1 + r.IntN(2)}, {Key: "ladder", Count: 1}}}
	for i := range 2 + r.IntN(2) {
		p := crew.Person{Key: fmt.Sprint("p", i), Practised: r.IntN(2) == 0}
		if i > 0 && r.IntN(2) == 0 {
			from := r.IntN(10)
			p.Free = []crew.Interval{{From: from, To: from + 15 + r.IntN(15)}, {From: from + 35, To: 200}}
		}
		job.People = append(job.People, p)
	}
	for i := range 5 + r.IntN(3) {
		task := crew.Task{Key: fmt.Sprint("t", i), Minutes: float64(3 + r.IntN(15)),
			Beginner: 1 + float64(r.IntN(3))/2, Least: 1 + r.IntN(2), Crowding: float64(r.IntN(3)) * 0.05,
			Place: crew.Site}
		task.Most = min(len(job.People), task.Least+r.IntN(2))
		if r.IntN(2) == 0 {
			task.Needs = []crew.Need{{Thing: []string{"pump", "ladder"}[r.IntN(2)]}}
		}
		for k := range i {
			if r.IntN(4) == 0 {
				task.Before = append(task.Before, fmt.Sprint("t", k))
			}
		}
		if r.IntN(4) == 0 {
			task.Taken = []string{job.People[r.IntN(len(job.People))].Key}
		}
		job.Tasks = append(job.Tasks, task)
	}
	return job
}

var printedSpan = regexp.MustCompile(`span = (\d+);`)

// gecode returns the shortest makespan up to a limit, with the solver's proof: the line of ten equals signs. It fails
// if there is none up to the limit.
func gecode(t *testing.T, solver string, job crew.Job, limit int) int {
	t.Helper()
	file := filepath.Join(t.TempDir(), "job.mzn")
	require.NoError(t, os.WriteFile(file, []byte(constraints(job, limit)), 0o600))
	out, err := exec.Command(solver, "--solver", "gecode", "--time-limit", "120000", file).CombinedOutput()
	require.NoError(t, err, string(out))
	require.Contains(t, string(out), "==========", "no proof within two minutes: %s", out)
	found := printedSpan.FindSubmatch(out)
	require.NotNil(t, found, string(out))
	span, err := strconv.Atoi(string(found[1]))
	require.NoError(t, err)
	return span
}

// constraints writes the job in the solver's language: who is on which task, how long that team takes, who is free
// when, what is shared.
func constraints(job crew.Job, limit int) string {
	var b strings.Builder
	n, people := len(job.Tasks), len(job.People)
	fmt.Fprintf(&b,
		"include \"cumulative.mzn\"; include \"table.mzn\";\n"+
			"array[1..%d] of var 0..%d: s; array[1..%d] of var 1..100: d; "+
			"array[1..%d,1..%d] of var 0..1: on; var 0..%d: span;\n",
		n, limit, n, n, people, limit)
	for i, task := range job.Tasks {
		fmt.Fprintf(&b, "constraint s[%d] + d[%d] <= span;\n", i+1, i+1)
		var practised, beginners []string
		for p, person := range job.People {
			on := fmt.Sprintf("on[%d,%d]", i+1, p+1)
			if person.Practised {
				practised = append(practised, on)
			} else {
				beginners = append(beginners, on)
			}
			// Tasks must not overlap the times when their people are away.
			away := 0
			for _, free := range append(append([]crew.Interval(nil), person.Free...), crew.Interval{From: 1000}) {
				if len(person.Free) > 0 && free.From > away && away < 200 {
					by := fmt.Sprintf("s[%d] + d[%d] <= %d", i+1, i+1, away)
					if contains(task.Taken, person.Key) { // whoever took it begins in time and stays on
						by = fmt.Sprintf("s[%d] < %d", i+1, away)
					}
					fmt.Fprintf(&b, "constraint %s = 1 -> (%s \\/ s[%d] >= %d);\n", on, by, i+1, min(200, free.From))
				}
				away = free.To
			}
			if contains(task.Taken, person.Key) {
				fmt.Fprintf(&b, "constraint %s = 1;\n", on)
			}
		}
		sum := func(list []string) string { return strings.Join(append(list, "0"), "+") }
		fmt.Fprintf(&b,
			"constraint let {var int: p = %s, var int: q = %s} in p+q >= %d /\\ p+q <= %d /\\ table([p,q,d[%d]], %s);\n",
			sum(practised), sum(beginners), task.Least, max(task.Least, task.Most), i+1, teams(task, people))
		for _, key := range task.Before {
			for k, other := range job.Tasks {
				if other.Key == key {
					fmt.Fprintf(&b, "constraint s[%d] >= s[%d] + d[%d];\n", i+1, k+1, k+1)
				}
			}
		}
	}
	for p := range people {
		fmt.Fprintf(&b, "constraint cumulative(s, d, [on[i,%d] | i in 1..%d], 1);\n", p+1, n)
	}
	shareThings(&b, job)
	fmt.Fprintf(
		&b,
		"solve :: seq_search([int_search(array1d(on), input_order, indomain_max), "+
			"int_search(s, smallest, indomain_min)]) minimize span;\noutput [\"span = \\(span);\\n\"];\n",
	)
	return b.String()
}

// shareThings writes that no thing is used by more tasks than it has units.
func shareThings(b *strings.Builder, job crew.Job) {
	for _, thing := range job.Things {
		var uses []string
		for _, task := range job.Tasks {
			use := 0
			for _, need := range task.Needs {
				if need.Thing == thing.Key {
					use = max(1, need.Units)
				}
			}
			uses = append(uses, strconv.Itoa(use))
		}
		fmt.Fprintf(b, "constraint cumulative(s, d, [%s], %d);\n", strings.Join(uses, ","), thing.Count)
	}
}

// teams lists practised, beginners, minutes. The n-th hand adds 1-2c(n-1) of its own speed, the faster counted first.
func teams(task crew.Task, people int) string {
	var rows []string
	for p := range people + 1 {
		for q := range people + 1 - p {
			if p+q < 1 {
				continue
			}
			speed := 0
			for hand := range p + q {
				gain := int(1000*(1-2*task.Crowding*float64(hand)) + 0.5)
				if hand >= p {
					gain = gain * int(1000/task.Beginner+0.5) / 1000
				}
				speed += gain
			}
			rows = append(rows, fmt.Sprintf("%d,%d,%d", p, q, (int(task.Minutes)*1000+speed-1)/speed))
		}
	}
	return "[|" + strings.Join(rows, "|") + "|]"
}
