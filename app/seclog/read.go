package seclog

import (
	"bytes"
	"cmp"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
)

// Read returns the events that fit, newest first: at most so many after skipping some, and whether there are more. What
// is being counted together, or waits for the disk, is among them. Files and lines that cannot be read are left out.
func (l *Log) Read(fits func(Event) bool, skip, limit int) (found []Event, more bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	all := append(readAll(l.dir), l.unkept...)
	var counting []Event
	for _, s := range l.sorts {
		if s.Times > 0 {
			counting = append(counting, *s)
		}
	}
	slices.SortFunc(counting, func(a, b Event) int {
		return cmp.Compare(a.What+a.Why+a.Link+a.Device+a.From, b.What+b.Why+b.Link+b.Device+b.From)
	})
	all = append(all, counting...)
	slices.SortStableFunc(all, func(a, b Event) int { return cmp.Compare(a.last(), b.last()) })
	slices.Reverse(all)
	for _, e := range all {
		switch {
		case !fits(e):
		case skip > 0:
			skip--
		case len(found) == limit:
			return found, true
		default:
			found = append(found, e)
		}
	}
	return found, false
}

func (e Event) last() int64 { return max(e.At, e.Until) }

// readAll reads the files, the oldest first.
func readAll(dir string) []Event {
	paths := []string{filepath.Join(dir, fileName)}
	for n := 1; n <= filesKept; n++ {
		paths = append(paths, numbered(dir, n))
	}
	var all []Event
	for i := len(paths) - 1; i >= 0; i-- {
		data, err := os.ReadFile(paths[i])
		if err != nil { // not there yet, mostly
			continue
		}
		for line := range bytes.Lines(data) {
			var e Event
			if json.Unmarshal(line, &e) == nil && e.What != "" {
				all = append(all, e)
			}
		}
	}
	return all
}
