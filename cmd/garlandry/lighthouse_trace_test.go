package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// traced is what a page's main thread did after it first painted something.
type traced struct {
	blocking float64 // ms beyond 50 ms in tasks, were the processor four times slower and had nothing else to do
	had      float64 // share of the tasks' time in which the thread had the processor: low on a busy machine
}

// event is what is read of an event in Chromium's trace. Times are microseconds.
type event struct {
	Name string  `json:"name"`
	Pid  int     `json:"pid"`
	Tid  int     `json:"tid"`
	At   float64 `json:"ts"`
	Took float64 `json:"dur"`
	Ran  float64 `json:"tdur"` // of Took, on the processor
}

// readTrace reads the trace that Lighthouse left in a folder.
func readTrace(t *testing.T, folder string) traced {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(folder, "defaultPass.trace.json"))
	require.NoError(t, err)
	var trace struct {
		TraceEvents []event `json:"traceEvents"`
	}
	require.NoError(t, json.Unmarshal(data, &trace))
	var painted event
	for _, e := range trace.TraceEvents {
		if e.Name == "firstContentfulPaint" {
			painted = e
		}
	}
	require.NotZero(t, painted.At, "the page painted nothing")
	var found traced
	took, ran := 0.0, 0.0
	for _, e := range trace.TraceEvents {
		if !strings.HasSuffix(e.Name, "RunTask") || e.Pid != painted.Pid || e.Tid != painted.Tid || e.At < painted.At {
			continue
		}
		took, ran = took+e.Took, ran+e.Ran
		found.blocking += max(0, 4*e.Ran/1000-50)
	}
	require.NotZero(t, ran, "the trace has no times of the processor")
	found.had = ran / took
	return found
}
