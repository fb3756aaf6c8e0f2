package psplib_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc/crew/internal/psplib"
)

// small is a small file in the format.
const small = `projects : 1
PROJECT INFORMATION:
pronr. #jobs rel.date duedate tardcost MPM-Time
1 2 0 9 1 5
PRECEDENCE RELATIONS:
jobnr. #modes #successors successors
1 1 2 2 3
2 1 1 4
3 1 1 4
4 1 0
REQUESTS/DURATIONS:
jobnr. mode duration R 1 R 2
------------------------
1 1 0 0 0
2 1 3 2 0
3 1 5 1 4
4 1 0 0 0
RESOURCEAVAILABILITIES:
R 1 R 2
2 4
`

func TestRead(t *testing.T) {
	in, err := psplib.Read(small)
	require.NoError(t, err)
	assert.Equal(t, psplib.Instance{MPMTime: 5, Capacity: []int{2, 4}, Tasks: []psplib.Task{
		{Needs: []int{0, 0}},
		{Duration: 3, Needs: []int{2, 0}, After: []int{0}},
		{Duration: 5, Needs: []int{1, 4}, After: []int{0}},
		{Needs: []int{0, 0}, After: []int{1, 2}},
	}}, in)
}

// TestReadsOtherSystemsFiles reads files of other systems: line ends and tabs, lower-case headings, a byte order mark.
func TestReadsOtherSystemsFiles(t *testing.T) {
	want, err := psplib.Read(small)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"CRLF":              strings.ReplaceAll(small, "\n", "\r\n"),
		"tabs":              strings.ReplaceAll(small, " ", "\t  "),
		"small letters":     strings.ToLower(small),
		"a blank between":   strings.ReplaceAll(small, ":\n", " :\n\n"),
		"a byte order mark": "\ufeff" + small,
		"no last newline":   strings.TrimRight(small, "\n"),
	} {
		got, err := psplib.Read(text)
		require.NoError(t, err, name)
		assert.Equal(t, want, got, name)
	}
}

func TestReadRefuses(t *testing.T) {
	for name, text := range map[string]string{
		"nothing":      "",
		"other modes":  strings.Replace(small, "2 1 1 4", "2 3 1 4", 1),
		"short row":    strings.Replace(small, "1 1 2 2 3", "1 1 2 2", 1),
		"unknown job":  strings.Replace(small, "3 1 5 1 4", "9 1 5 1 4", 1),
		"no resources": small[:strings.Index(small, "RESOURCEAV")],
	} {
		_, err := psplib.Read(text)
		assert.Error(t, err, name)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(small)
	f.Fuzz(func(t *testing.T, text string) {
		in, err := psplib.Read(text)
		if err != nil {
			return
		}
		for i, task := range in.Tasks {
			for _, before := range task.After {
				if before < 0 || before >= len(in.Tasks) {
					t.Fatalf("task %d comes after task %d of %d", i, before, len(in.Tasks))
				}
			}
		}
	})
}
