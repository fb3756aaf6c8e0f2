package sync_test

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/sync/memory"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"
)

// A helper counts without a signal. Later one exchange sends the count and stores its record.
func ExamplePhone() {
	records := memory.New("readingroom", "epoch1", []byte("a key outside the database"), 1_800_000_000_000)
	bea := server.Session{ID: "session1", Author: job.Author{Role: job.Helper, Name: "Bea"}}
	ids := 0
	options := phone.Options{
		Now:    func() int64 { return 1_800_000_060_000 },
		NewID:  func() string { ids++; return fmt.Sprintf("random-id-%d", ids) },
		Jitter: func() float64 { return 0 },
	}

	written := 0
	save := func(step phone.Step, err error) { // a real phone writes each step in one transaction of its storage
		if err == nil {
			written += len(step.Put) + len(step.Delete)
		}
	}
	phone, step, err := phone.Open(nil, options) // nothing stored yet
	save(step, err)
	save(phone.Track("readingroom"))
	save(phone.Give("readingroom", nil))
	_, step, err = phone.Write("readingroom", job.Count("card/make/door", 12))
	save(step, err)
	fmt.Println(phone.Status("readingroom").Waiting, "waits on this phone,", written, "rows written")

	request, _ := phone.Request("readingroom", options.Now())
	response, _ := server.Serve(records, bea, request, options.Now())
	save(phone.Receive("readingroom", request, response, options.Now()))
	state, _ := phone.State("readingroom")
	fmt.Println(phone.Status("readingroom").Waiting, "waits,", state.Tally("card/make/door").Total(), "made,", written,
		"rows written")
	// Output:
	// 1 waits on this phone, 5 rows written
	// 0 waits, 12 made, 9 rows written
}
