package page

import (
	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// bringBack puts a removed entity back into the request's copy of the job and reports whether it was removed. It writes
// nothing: the form shows again what was typed, and saving it restores the entity.
func (r *request) bringBack(entity string) bool {
	if !r.job.State.Removed(entity) {
		return false
	}
	r.job = job.Try(r.job, []job.Change{job.Put(entity, "removed", false)})
	return true
}

// restoring adds the restoration of a removed entity to the changes of its form. The first time it only says that the
// entity was removed.
func restoring(entity string, changes []job.Change, state form.State) ([]job.Change, form.State) {
	if state.Get(view.FieldRestore) == "" {
		state.Values.Set(view.FieldRestore, "1")
		state.Alert = "Somebody removed this. Save again to bring it back with what you typed."
	}
	return append(changes, job.Put(entity, "removed", false)), state
}
