package forecast

import (
	"strconv"
	"strings"
	"time"

	"garlandry/app/job"
	"garlandry/calc/measure"
)

// momentAt writes local minutes since the beginning of 1970 as a moment.
func momentAt(minutes int64) job.Moment { return job.MomentOf(time.Unix(60*minutes, 0).UTC()) }

// clock writes the time of day of a minute, with the days it lies after the doors' day: "10:42", "01:10 the day after".
func (f *Forecast) clock(minute int) string {
	text := string(f.At(minute)[11:])
	switch days := minute/dayMinutes - f.Doors/dayMinutes; {
	case days == 1:
		text += " the day after"
	case days > 1:
		text += " " + strconv.Itoa(days) + " days later"
	}
	return text
}

// Percent writes odds in whole percent, rounded down: "90 %". Nothing is ever certain: the most is "99 %".
func Percent(odds float64) string {
	percent := int(float64(odds*100) + 1e-9)
	if percent < 1 {
		return "under 1 %"
	}
	return strconv.Itoa(min(percent, 99)) + " %"
}

// even is the odds at which late is as likely as on time. Below them a plan is called late.
const even = 0.5

// MustHaves says whether the must-haves are done by the doors, with their odds: "on time (99 %)", "too few hands".
func (f *Forecast) MustHaves() string {
	if f.MustBlocked() {
		return "too few hands"
	}
	says := "late"
	switch {
	case f.Musts >= Target:
		says = "on time"
	case f.Musts >= even:
		says = "tight"
	}
	return says + " (" + Percent(f.Musts) + ")"
}

// say returns the verdict and the sentence of a forecast that has its odds.
func (f *Forecast) say() {
	likely, safe, doors := f.clock(f.Half), f.clock(f.Ninety), f.clock(f.Doors)
	without := f.Without()
	says := func(text string) string {
		if without != "" {
			return "The rest is " + text
		}
		return strings.ToUpper(text[:1]) + text[1:]
	}
	tight := says("tight: " + Percent(f.Odds) + " done by " + doors + ". Safe bet " + safe + ".")
	switch {
	case f.Now >= f.Doors:
		f.Verdict, f.Sentence = "past", f.past()+"left. Likely done "+likely+", safe bet "+safe+"."
	case f.Ninety > f.Doors+2*dayMinutes:
		f.Verdict, f.Sentence = "late", "More work than this crew can do; doors "+doors+"."
	case f.Odds >= Target:
		f.Verdict, f.Sentence = "sure", says("on time. Safe bet "+safe+", doors "+doors+".")
	case f.Odds >= even:
		f.Verdict, f.Sentence = "unsure", tight
	case f.Half <= f.Doors:
		f.Verdict, f.Sentence = "late", tight
	default:
		f.Verdict = "late"
		f.Sentence = says(measure.FormatMinutes(float64(f.Half-f.Doors)) + " late. Likely done " + likely +
			", doors " + doors + ".")
	}
	if without != "" {
		f.Sentence = without + " " + f.Sentence
		if f.Verdict == "sure" {
			f.Verdict = "unsure"
		}
		if f.MustBlocked() && f.Verdict == "unsure" {
			f.Verdict = "late"
		}
	}
}
