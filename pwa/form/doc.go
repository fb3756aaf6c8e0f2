// Package form turns what a person typed into changes of a job, and a job back into the values of a form.
//
// It reads each field by its kind in [job.Noun]: lengths and temperatures as people write them, dates, recipes, colour
// weights, sizes, rows of counts. Only what was typed anew becomes a change, so that two people who edit different
// fields of one thing never overwrite each other. Everything typed is kept, wrong or not. Each error is at its field
// and names the allowed range in the reader's units.
//
// It knows nothing of pages, addresses or HTTP. Start at [Entity] and [Fill].
package form
