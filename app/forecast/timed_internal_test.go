package forecast

import (
	"strconv"
	"testing"

	"garlandry/app/internal/sample"
	"garlandry/app/job"
	"garlandry/app/plan"

	"pgregory.net/rapid"
)

// tapped is one operation of a random log.
type tapped struct {
	who    string
	minute float64
	change job.Change
}

// logOf returns a job with a day, two pieces and what people tapped on it.
func logOf(taps []tapped) job.Job {
	changes := []job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:00"),
		job.Put("member/a", "name", "Ines"), job.Put("member/a", "skill", "practised"),
		job.Put("member/b", "name", "Bea")}
	for _, id := range []string{"one", "two"} {
		changes = append(changes, sample.Piece(id, "tables", map[string]any{"count": 10, "each": 8, "built": "site",
			"colours": sample.Shares("coral", 1.0)})...)
	}
	j := sample.Job(changes...)
	in, _ := j.Brief.In.Time()
	state := j.State.Clone()
	for i, x := range taps {
		kind := x.change.Kind
		if kind == "" {
			kind = job.Set
		}
		state.Apply(job.Rec{Op: job.Op{ID: "tapped-" + strconv.Itoa(i), Device: x.who, Number: uint64(i + 1),
			Version: job.Version, Kind: kind, Entity: x.change.Entity, Field: x.change.Field, Value: x.change.Value,
			Delta: x.change.Delta}, Effective: in.UnixMilli() + int64(x.minute*minuteMS), Seq: 1,
			Author: job.Author{Role: job.Helper, Name: x.who}})
	}
	return job.Read("j", state, j.Private)
}

// learnt returns the factor of filling on the day, and that of the comparison for practised hands; 1 if there is none.
func learnt(t *rapid.T, taps []tapped) (day, later float64) {
	j := logOf(taps)
	p := plan.Make(j)
	in, _ := j.Brief.In.Time()
	f := prepare(&j, &p, in.Unix()/60+300, 0)
	day, later = 1, 1
	for _, rate := range f.job.Rates {
		if rate.Factor < 1.0/3 || rate.Factor > 3 {
			t.Fatalf("%s on the day: %v", rate.Kind, rate.Factor)
		}
		if rate.Kind == "fill" {
			day = rate.Factor
		}
	}
	for _, c := range f.Compare(&j, &p) {
		if c.Factor < 1.0/3 || c.Factor > 3 {
			t.Fatalf("%s afterwards: %v", c.Kind, c.Factor)
		}
		if c.Kind == "fill" && c.Practised {
			later = c.Factor
		}
	}
	return day, later
}

// TestNoTapsTeachMoreThanThreeTimes draws counts, undone ones, ticks, and times that were typed in, at any time.
func TestNoTapsTeachMoreThanThreeTimes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cards := []string{"card/make/one", "card/make/two", "card/fix/one", "card/unload"}
		var taps []tapped
		for i := range rapid.IntRange(0, 40).Draw(t, "taps") {
			card := rapid.SampledFrom(cards).Draw(t, "card")
			x := tapped{who: rapid.SampledFrom([]string{"Ines", "Bea", ""}).Draw(t, "who"),
				minute: rapid.Float64Range(0, 300).Draw(t, "minute")}
			switch rapid.IntRange(0, 6).Draw(t, "what") {
			case 0:
				x.change = job.Put(card, "taken", x.who)
			case 1:
				x.change = job.Put(card, "done", true)
			case 2:
				x.change = job.Put(card, "took", rapid.IntRange(1, 1440).Draw(t, "took"))
			case 3:
				x.change = job.TakeBack(card, "tapped-"+strconv.Itoa(rapid.IntRange(0, max(0, i)).Draw(t, "undone")))
			case 4:
				x.change = job.Change{Kind: job.Stocktake, Entity: card,
					Value: job.Put("", "", job.Counted{N: rapid.Int64Range(0, 12).Draw(t, "counted")}).Value}
			default:
				x.change = job.Count(card, rapid.Int64Range(-5, 10).Draw(t, "delta"))
			}
			taps = append(taps, x)
		}
		learnt(t, taps)
	})
}

// TestMoreTimeNeverMakesFaster draws the ways in which the time of a batch is known, and the same with more time.
func TestMoreTimeNeverMakesFaster(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const card, each = "card/make/one", 2.0 // minutes of practised hands for one of ten
		way := rapid.SampledFrom([]string{"counts", "tick", "typed"}).Draw(t, "way")
		taps := func(longer float64, gaps []float64) (list []tapped) {
			switch way {
			case "counts":
				minute := 5.0
				list = append(list, tapped{"Ines", minute, job.Count(card, 1)})
				for _, gap := range gaps {
					minute += min(10, float64(gap*longer))
					list = append(list, tapped{"Ines", minute, job.Count(card, 1)})
				}
			case "tick":
				end := 5 + float64(gaps[0]*longer*6)
				list = []tapped{{"Ines", 5, job.Put(card, "taken", "Ines")}, {"Ines", end, job.Put(card, "have", 10)},
					{"Ines", end, job.Put(card, "done", true)}}
			default:
				list = []tapped{{"Ines", 5, job.Count(card, 10)},
					{"Ines", 6, job.Put(card, "took", max(1, float64(gaps[0]*longer*100)))}}
			}
			return list
		}
		gaps := rapid.SliceOfN(rapid.Float64Range(1.01, 3.3), 3, 9).Draw(t, "gaps")
		longer := rapid.Float64Range(1, 3).Draw(t, "longer")
		if way == "tick" { // within three times the table's
			longer = min(longer, 3*10*each/(gaps[0]*6))
		}
		day, later := learnt(t, taps(1, gaps))
		if day == 1 || later == 1 {
			t.Fatalf("%s: nothing was learnt", way)
		}
		slowDay, slowLater := learnt(t, taps(longer, gaps))
		if slowDay < day || slowLater < later {
			t.Fatalf("%s: %v and %v, with more time %v and %v", way, day, later, slowDay, slowLater)
		}
	})
}
