package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// leave draws the page that signs this device out.
func leave(r *request) *Reply {
	return r.draw("Sign out", view.SignOut(r.frame, r.leaving("")))
}

// removeJob draws the page that takes a job off this phone. A helper has one job, so that is signing out.
func removeJob(r *request) *Reply {
	if r.Visitor.Role != job.Owner {
		return r.redirect(address.SignOut.Path(), "")
	}
	return r.draw(view.LabelRemoveJob, view.RemoveJob(r.frame, r.leaving(r.job.ID)))
}

// stay answers forms that sign out or remove a job. Phone and server handle these before they call this package.
func stay(r *request) *Reply { return r.redirect(address.Phone.Path(), view.LabelUnchanged) }

func (r *request) leaving(job string) view.Leaving {
	if r.Leaving == nil {
		return view.Leaving{}
	}
	return r.Leaving(job)
}

// unsentFile returns what this phone has not sent yet.
func unsentFile(r *request) *Reply {
	if r.Unsent == nil {
		return r.notFound()
	}
	reply := r.draw("Not sent yet", nil)
	reply.File = &File{Name: "not-handed-in.json", Mime: "application/json", Data: r.Unsent(r.in.Get("job"))}
	return reply
}
