package page

import (
	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// bringBack reads the job as if an entity that somebody removed meanwhile stood in it, and reports whether it did so.
// Nothing is written: what was typed into its form is shown again, and saving that brings it back.
func (r *request) bringBack(entity string) bool {
	if !r.job.State.Removed(entity) {
		return false
	}
	r.job = form.Try(r.job, []job.Change{job.Put(entity, "removed", false)})
	return true
}

// backToo adds the return of a removed entity to the changes of its form, once whoever saves has been told of the
// removal: the first time the state says so.
func backToo(entity string, changes []job.Change, state form.State) ([]job.Change, form.State) {
	if state.Get(view.FieldRestore) == "" {
		state.Values.Set(view.FieldRestore, "1")
		state.Alert = "Somebody removed this meanwhile. Save once more to bring it back with what you typed, or leave the page to let it go."
	}
	return append(changes, job.Put(entity, "removed", false)), state
}
