package job_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
)

// FuzzMoments checks that ParseMoment accepts exactly the texts that time.Date formats back unchanged.
func FuzzMoments(f *testing.F) {
	for _, text := range []string{"2027-05-08T16:00", "2028-02-29T00:00", "2027-02-29T00:00", "2027-13-01T00:00",
		"2027-05-08T24:00", "2027-05-08T9:000", "2027-05-08", "", "2027-05-08T16:00Z", "1999-12-31T23:59",
		"2100-12-31T23:59", "2101-01-01T00:00", "+027-05-08T16:00", "2027-05-08 16:00"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		var year, month, day, hour, minute int
		var want time.Time
		_, err := fmt.Sscanf(text, "%4d-%2d-%2dT%2d:%2d", &year, &month, &day, &hour, &minute)
		if err == nil {
			want = time.Date(year, time.Month(month), day, hour, minute, 0, 0, time.UTC)
		}
		known := err == nil && year >= 2000 && year <= 2100 && !strings.ContainsAny(text, "+ ") &&
			fmt.Sprintf("%04d-%02d-%02dT%02d:%02d", want.Year(), want.Month(), want.Day(), want.Hour(), want.Minute()) == text
		got, ok := job.ParseMoment(text)
		assert.Equal(t, known, ok)
		if known {
			assert.True(t, want.Equal(got))
			assert.Equal(t, text, string(job.MomentOf(got)))
		}
	})
}

func TestMinutesUntil(t *testing.T) {
	for name, row := range map[string]struct {
		from, to job.Moment
		want     float64
		known    bool
	}{
		"an hour":           {"2027-05-08T10:00", "2027-05-08T11:00", 60, true},
		"back":              {"2027-05-08T10:00", "2027-05-08T09:59", -1, true},
		"over a leap day":   {"2028-02-28T12:00", "2028-03-01T12:00", 2880, true},
		"summer time":       {"2027-03-28T00:00", "2027-03-28T06:00", 360, true},
		"a century":         {"2000-01-01T00:00", "2100-12-31T00:00", 53_120_160, true},
		"no beginning":      {"", "2027-05-08T11:00", 0, false},
		"not in a calendar": {"2027-02-29T10:00", "2027-05-08T11:00", 0, false},
	} {
		got, known := row.from.MinutesUntil(row.to)
		assert.Equal(t, row.known, known, name)
		assert.Equal(t, row.want, got, name)
	}
}
