package job_test

import (
	"testing"
	"time"

	"garlandry/app/job"

	"github.com/stretchr/testify/assert"
)

// FuzzCalendarAsInPackageTime holds our calendar to the standard library's.
func FuzzCalendarAsInPackageTime(f *testing.F) {
	for _, minutes := range []int64{0, -1, 29_000_000, 15_778_080, 68_000_000, -62_000_000_0} {
		f.Add(minutes)
	}
	f.Fuzz(func(t *testing.T, minutes int64) {
		minutes %= 1_500_000_000 // some 2,800 years either way
		want := time.Unix(minutes*60, 0).UTC()
		got := job.CalendarAt(minutes)
		assert.Equal(t,
			job.Calendar{Year: want.Year(), Month: int(want.Month()), Day: want.Day(), Hour: want.Hour(), Minute: want.Minute()},
			got)
		assert.Equal(t, minutes, got.Minutes())
		assert.Equal(t, int(want.Weekday()), got.Weekday())
	})
}

func FuzzMomentsReadAsInPackageTime(f *testing.F) {
	for _, text := range []string{"2027-05-08T16:00", "2028-02-29T00:00", "2027-02-29T00:00", "2027-13-01T00:00",
		"2027-05-08T24:00", "2027-05-08", "", "2027-05-08T16:00Z", "1999-12-31T23:59"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		const layout = "2006-01-02T15:04"
		want, err := time.Parse(layout, text)
		known := err == nil && len(text) == len(layout) && want.Year() >= 2000 && want.Year() <= 2100
		got, ok := job.ParseMoment(text)
		assert.Equal(t, known, ok)
		if known {
			assert.Equal(t, want.Unix(), got.Minutes()*60)
		}
	})
}
