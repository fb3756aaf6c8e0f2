package store

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strconv"

	"garlandry/app/job"
)

// line is a journal line with its place among the others.
type line struct {
	journalLine
	order int
}

// journalFiles lists the files of a journal, oldest first.
func journalFiles(journal string) ([]string, error) {
	info, err := os.Stat(journal)
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	if !info.IsDir() {
		return []string{journal}, nil
	}
	files, err := filepath.Glob(filepath.Join(escapeGlob(journal), "ops-*.ndjson"))
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("no ops-YYYYMM.ndjson in %s: %w", journal, fs.ErrNotExist)
	}
	if err != nil {
		return nil, fmt.Errorf("replay: %w", err)
	}
	slices.Sort(files)
	return files, nil
}

// escapeGlob escapes a directory's name for [filepath.Glob].
func escapeGlob(dir string) string {
	var b []byte
	for _, c := range []byte(dir) {
		if c == '*' || c == '?' || c == '[' {
			b = append(b, '[', c, ']')
			continue
		}
		b = append(b, c)
	}
	return string(b)
}

// readJournal returns the last line of every operation by log, and the history of held operations.
func readJournal(files []string) (map[string]map[string]line, heldHistory, Replayed, error) {
	logs, history, n := map[string]map[string]line{}, heldHistory{}, 0
	result, err := eachLine(files, &n, func(l line) {
		if history.add(l); l.Rec == nil {
			return
		}
		if logs[l.Log] == nil {
			logs[l.Log] = map[string]line{}
		}
		logs[l.Log][l.Rec.ID] = l
	})
	for log, entries := range history {
		for id, entry := range entries {
			if rec, there := logs[log][id]; there {
				entry.rec = rec.Rec
			}
		}
	}
	return logs, history, result, err
}

// eachLine calls do for every readable line of journal files, in order, and counts the lines in n. The result names the
// unreadable ones.
func eachLine(files []string, n *int, do func(line)) (Replayed, error) {
	var result Replayed
	for _, name := range files {
		file, err := os.Open(name)
		if err != nil {
			return result, fmt.Errorf("replay: %w", err)
		}
		err = eachLineOf(file, n, do, &result)
		if err = errors.Join(err, file.Close()); err != nil {
			return result, fmt.Errorf("replay %s: %w", name, err)
		}
	}
	return result, nil
}

func eachLineOf(file *os.File, n *int, do func(line), result *Replayed) error {
	reader := bufio.NewReader(file)
	for at := 1; ; at++ {
		text, err := reader.ReadBytes('\n')
		if err != nil && err != io.EOF {
			return err
		}
		if len(bytes.TrimSpace(text)) > 0 {
			*n++
			read, whole := readLine(text)
			if result.CutOff = !whole; whole {
				do(line{read, *n})
			} else {
				result.Unreadable = append(result.Unreadable, filepath.Base(file.Name())+" line "+strconv.Itoa(at))
			}
		}
		if err == io.EOF {
			return nil
		}
	}
}

// readLine reads one line; false if it is damaged or empty.
func readLine(text []byte) (journalLine, bool) {
	var l journalLine
	if json.Unmarshal(text, &l) != nil || !validJob(jobOf(l.Log)) {
		return l, false
	}
	switch {
	case l.Rec != nil:
		return l, l.Rec.ID != ""
	case l.Held != nil:
		return l, l.Held.Op.ID != ""
	}
	return l, l.Settled != nil && l.Settled.ID != ""
}

// recsInOrder returns the records of a log in journal order, and their earliest stamp.
func recsInOrder(lines map[string]line) (recs []job.Rec, first int64) {
	sorted := make([]line, 0, len(lines))
	for _, l := range lines {
		sorted = append(sorted, l)
	}
	sort.Slice(sorted, func(a, b int) bool { return sorted[a].order < sorted[b].order })
	for i, l := range sorted {
		if i == 0 || l.Rec.Effective < first {
			first = l.Rec.Effective
		}
		recs = append(recs, *l.Rec)
	}
	return recs, first
}
