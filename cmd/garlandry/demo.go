package main

import (
	"context"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/testdata"
)

// putDemo writes the demo job into a directory that has no job yet.
func putDemo(ctx context.Context, data *store.Store) error {
	system := data.System("Demo")
	jobs, err := data.Jobs(system)
	if err != nil || len(jobs) > 0 {
		return err
	}
	changes, err := job.DecodeFile(testdata.DemoJob)
	if err != nil {
		return fmt.Errorf("read the demo job: %w", err)
	}
	_, err = data.CreateJob(ctx, system, "", changes)
	return err
}
