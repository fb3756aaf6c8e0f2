package forecast

import (
	"os"
	"testing"

	"garlandry/app/plan"

	"garlandry/app/job"
)

// The benchmark reports how many plans the search makes with tryBudget and with Usual.
func BenchmarkFixesDemo(b *testing.B) {
	for _, file := range []string{"../../testdata/jobs/reading-room.json"} {
		data, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		changes, err := job.DecodeFile(data)
		if err != nil {
			b.Fatal(err)
		}
		j := job.Preview(changes)
		p := plan.Make(j)
		c := New(j, p, 0, Usual, nil)
		var s *searcher
		for b.Loop() {
			s = c.seek(&j, &p, 0, nil)
			s.search()
		}
		b.ReportMetric(float64(len(s.mitigations)), "mitigations")
		b.ReportMetric(float64(s.plans), "small-plans")
		b.ReportMetric(float64(s.offers), "usual-plans")
	}
}
