package crew_test

import (
	"flag"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
	"garlandry/calc/crew/internal/psplib"
)

var (
	instancesDir       = flag.String("instances", "", "a folder of PSPLIB .sm files to schedule")
	instancesSchedules = flag.Int("schedules", 1000, "schedules for each instance")
	instancesSeed      = flag.Uint64("seed", 1, "seed of the search")
)

// TestInstances schedules a folder of instances and prints a line for each: file, makespan, schedules generated (fewer
// than the budget if the bound is reached), milliseconds. It checks every schedule.
func TestInstances(t *testing.T) {
	if *instancesDir == "" {
		t.Skip(
			"no folder is given; to run: go test ./calc/crew -run TestInstances " +
				"-instances DIR -schedules 5000 -seed 1 -v",
		)
	}
	for _, file := range instanceFiles(t, *instancesDir) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		in, err := psplib.Read(string(text))
		if !assert.NoError(t, err, file) {
			continue // go on with the next instance
		}
		begun := time.Now()
		length, used := solveInstance(t, in, *instancesSeed, *instancesSchedules)
		t.Logf("%s %d %d %.1f", filepath.Base(file), length, used, float64(time.Since(begun).Microseconds())/1000)
	}
}

func instanceFiles(t *testing.T, folder string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.[sS][mM]"))
	require.NoError(t, err)
	require.NotEmpty(t, files, "no .sm files in %s", folder)
	sort.Strings(files)
	return files
}

func readInstance(t *testing.T, file string) psplib.Instance {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	in, err := psplib.Read(string(text))
	require.NoError(t, err, file)
	return in
}

// instanceJob converts an instance to a job on site: resources as things, practised people, no windows. The instance
// has no people, so there are enough of them: 60 give the same makespans as more.
func instanceJob(in psplib.Instance) crew.Job {
	var job crew.Job
	for r, count := range in.Capacity {
		job.Things = append(job.Things, crew.Thing{Key: "resource " + strconv.Itoa(r), Count: count})
	}
	for person := range max(15, len(in.Tasks)/4) {
		job.People = append(job.People, crew.Person{Key: strconv.Itoa(person), Practised: true})
	}
	for i, task := range in.Tasks {
		t := crew.Task{Key: strconv.Itoa(i), Minutes: float64(task.Duration), Place: crew.Site}
		for r, units := range task.Needs {
			if units > 0 {
				t.Needs = append(t.Needs, crew.Need{Thing: job.Things[r].Key, Units: units})
			}
		}
		for _, before := range task.After {
			t.Before = append(t.Before, strconv.Itoa(before))
		}
		job.Tasks = append(job.Tasks, t)
		job.Doors += task.Duration
	}
	return job
}

// solveInstance runs the product's search and decoder, and checks the schedule twice: as a job of people and things,
// and against the instance itself.
func solveInstance(t *testing.T, in psplib.Instance, seed uint64, schedules int) (length, used int) {
	t.Helper()
	job := instanceJob(in)
	search, err := crew.NewSearch(job, seed, schedules)
	require.NoError(t, err)
	best := search.Improve(schedules)
	require.LessOrEqual(t, best.Tried, schedules)
	checkCrew(t, job, best, true)
	starts := make([]int, len(in.Tasks))
	for i, slot := range best.Slots {
		starts[i] = slot.Start
	}
	checkSchedule(t, in, starts, best.Finish)
	return best.Finish, best.Tried
}

// checkSchedule checks precedence, and what is in use at every unit of time, without using the code that made the
// schedule.
func checkSchedule(t *testing.T, in psplib.Instance, start []int, length int) {
	t.Helper()
	last := 0
	for job, task := range in.Tasks {
		require.GreaterOrEqual(t, start[job], 0)
		last = max(last, start[job]+task.Duration)
		for _, before := range task.After {
			require.GreaterOrEqual(t, start[job], start[before]+in.Tasks[before].Duration, "job %d begins before job %d ends",
				job+1, before+1)
		}
	}
	require.Equal(t, last, length)
	for now := range last {
		for r, there := range in.Capacity {
			inUse := 0
			for job, task := range in.Tasks {
				if start[job] <= now && now < start[job]+task.Duration {
					inUse += task.Needs[r]
				}
			}
			require.LessOrEqual(t, inUse, there, "resource %d at %d", r+1, now)
		}
	}
}

type published struct{ criticalPath, lower, upper int }

// readPublished reads a list of bounds: file,cpm,...,lb,ub,status.
func readPublished(t *testing.T, file string) map[string]published {
	t.Helper()
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	rows := map[string]published{}
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n")[1:] {
		cells := strings.Split(strings.TrimSpace(line), ",")
		require.Len(t, cells, 9, line)
		number := func(i int) int {
			n, err := strconv.Atoi(cells[i])
			require.NoError(t, err, line)
			return n
		}
		rows[cells[0]] = published{number(1), number(6), number(7)}
	}
	return rows
}

// TestPublishedInstances compares with published figures for all 480 instances of each set: the hybrid GA of Valls et
// al. and the self-adapting GA of Hartmann 2002 by Kolisch and Hartmann (EJOR 174, 2006; from memory), the hybrid EDA
// by Wang and Fang (Expert Systems with Applications 39, 2012, table 7; read there). Figures of a part mean less; the
// best known lengths of the same part are printed beside them. The optimum of j30 and the bounds of j60 come from the
// folder's own lists. The search and the decoder are those of the product.
func TestPublishedInstances(t *testing.T) {
	folder := os.Getenv("PSPLIB_DIR")
	if folder == "" || folder == "none" {
		require.True(t, folder == "none" || os.Getenv("GARLANDRY_EXTERNAL") == "",
			"GARLANDRY_EXTERNAL is set and PSPLIB_DIR is not: set it to the folder of instances, or to none")
		t.Skip(
			"PSPLIB_DIR names no folder with j30, j60 and best-known-*.csv; to run: " +
				"PSPLIB_DIR=DIR go test ./calc/crew -run TestPublishedInstances -v",
		)
	}
	sets := []struct {
		set       string
		schedules int
		above     func(published) int // the reference of deviations
		target    float64             // mean, in per cent
		others    string              // published figures of the whole set, for the same number of schedules
	}{
		{"j30", 1000, func(p published) int { return p.upper }, 0.40, "hybrid GA 0.27, GA 0.38 (both from memory), EDA 0.38"},
		{"j30", 5000, func(p published) int { return p.upper }, 0.15, "hybrid GA 0.06, GA 0.22 (both from memory), EDA 0.14"},
		{"j60", 1000, func(p published) int { return p.criticalPath }, 12.5,
			"hybrid GA 11.56, GA 12.21 (both from memory), EDA 11.97"},
		{"j60", 5000, func(p published) int { return p.criticalPath }, 11.5,
			"hybrid GA 11.10, GA 11.70 (both from memory), EDA 11.43"},
	}
	for _, row := range sets {
		t.Run(row.set+"/"+strconv.Itoa(row.schedules), func(t *testing.T) {
			if testing.Short() && row.schedules > 1000 {
				t.Skip("-short: the larger budgets take several seconds; run without -short")
			}
			known := readPublished(t, filepath.Join(folder, "best-known-"+row.set+".csv"))
			files := instanceFiles(t, filepath.Join(folder, row.set))
			sum, best, used, most := 0.0, 0.0, 0, 0
			begun := time.Now()
			for _, file := range files {
				facts, listed := known[filepath.Base(file)]
				require.True(t, listed, file)
				length, schedules := solveInstance(t, readInstance(t, file), *instancesSeed, row.schedules)
				require.GreaterOrEqual(t, length, facts.lower, "%s is below a proven bound", file)
				from := float64(row.above(facts))
				sum += 100 * (float64(length) - from) / from
				best += 100 * (float64(facts.upper) - from) / from
				used, most = used+schedules, max(most, schedules)
			}
			mean := sum / float64(len(files))
			t.Logf("figure: %s: %d instances, mean deviation %.3f %%, %d schedules in all (at most %d each), %.0f a second",
				row.set, len(files), mean, used, most, float64(used)/time.Since(begun).Seconds())
			t.Logf(
				"figure: %s beside it: the best known lengths of the same %d instances %.3f %%; "+
					"published of all 480 with %d schedules: %s",
				row.set, len(files), best/float64(len(files)), row.schedules, row.others,
			)
			assert.LessOrEqual(t, mean, row.target)
		})
	}
}
