package page

import (
	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// bringBack reads the job as if a removed entity were still in it, and reports whether it did so. Nothing is written:
// what was typed into its form is shown again, and saving that brings it back.
func (r *request) bringBack(entity string) bool {
	if !r.job.State.Removed(entity) {
		return false
	}
	r.job = job.Try(r.job, []job.Change{job.Put(entity, "removed", false)})
	return true
}

// backToo adds the return of a removed entity to the changes of its form. The first time it only says that the entity
// was removed.
func backToo(entity string, changes []job.Change, state form.State) ([]job.Change, form.State) {
	if state.Get(view.FieldRestore) == "" {
		state.Values.Set(view.FieldRestore, "1")
		state.Alert = "Somebody removed this. Save again to bring it back with what you typed."
	}
	return append(changes, job.Put(entity, "removed", false)), state
}
