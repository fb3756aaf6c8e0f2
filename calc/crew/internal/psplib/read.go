// Package psplib reads the single-mode instances of PSPLIB (R. Kolisch and A.
// Sprecher, "PSPLIB - a project scheduling problem library", EJOR 96, 1996),
// files ending in .sm, so that schedules can be compared with published ones.
//
// It opens no files: the caller passes their text. Only tests use it. Start at Read.
package psplib

import (
	"fmt"
	"strconv"
	"strings"
)

// Task is one activity: it takes a fixed time and fixed amounts of resources while it runs, and is not interrupted.
type Task struct {
	Duration int   // whole units of time, 0 or more
	Needs    []int // of each resource while it runs
	After    []int // the tasks that must finish first, by number
}

// Instance is the content of a file.
type Instance struct {
	Tasks    []Task // the source first, the sink last
	Capacity []int  // of each renewable resource
	MPMTime  int    // the length of the critical path, as the file states it
}

// Read parses the text of one .sm file. The error names the section that cannot be read.
func Read(text string) (Instance, error) {
	var in Instance
	section := ""
	for _, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		if heading := headingOf(words[0]); heading != "" {
			section = heading
			continue
		}
		numbers, whole := wholeNumbers(words)
		if !whole || section == "" {
			continue
		}
		if err := in.add(section, numbers); err != nil {
			return Instance{}, fmt.Errorf("read the %s section of a PSPLIB file: %w", section, err)
		}
	}
	if len(in.Tasks) == 0 || len(in.Capacity) == 0 {
		return Instance{}, fmt.Errorf("read a PSPLIB file: it has %d jobs and %d resources", len(in.Tasks), len(in.Capacity))
	}
	return in, nil
}

func headingOf(word string) string {
	switch name := strings.ToLower(strings.TrimSuffix(word, ":")); name {
	case "project", "precedence", "requests/durations", "resourceavailabilities":
		return name
	}
	return ""
}

func wholeNumbers(words []string) ([]int, bool) {
	numbers := make([]int, len(words))
	for i, word := range words {
		n, err := strconv.Atoi(word)
		if err != nil {
			return nil, false
		}
		numbers[i] = n
	}
	return numbers, true
}

func (in *Instance) add(section string, row []int) error {
	switch section {
	case "project":
		if len(row) >= 6 {
			in.MPMTime = row[5]
		}
	case "precedence":
		return in.precede(row)
	case "requests/durations":
		if len(row) < 4 || row[0] < 1 || row[0] > len(in.Tasks) {
			return fmt.Errorf("a row of %d numbers for job %d of %d", len(row), row[0], len(in.Tasks))
		}
		in.Tasks[row[0]-1].Duration, in.Tasks[row[0]-1].Needs = row[2], row[3:]
	case "resourceavailabilities":
		in.Capacity = row
	}
	return nil
}

func (in *Instance) precede(row []int) error {
	if len(row) < 3 || row[0] < 1 || row[2] != len(row)-3 {
		return fmt.Errorf("a row of %d numbers", len(row))
	}
	if row[1] != 1 {
		return fmt.Errorf("job %d can be done in %d ways; only single-mode files are read", row[0], row[1])
	}
	reach := row[0]
	for _, next := range row[3:] {
		if next < 1 || next > 1_000_000 {
			return fmt.Errorf("job %d comes before job %d", row[0], next)
		}
		reach = max(reach, next)
	}
	for len(in.Tasks) < reach {
		in.Tasks = append(in.Tasks, Task{})
	}
	for _, next := range row[3:] {
		in.Tasks[next-1].After = append(in.Tasks[next-1].After, row[0]-1)
	}
	return nil
}
