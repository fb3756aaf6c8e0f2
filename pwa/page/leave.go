package page

import (
	"garlandry/app/job"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// leave draws the page that signs this device out.
func leave(a *ask) *Reply {
	return a.draw("Sign out", view.SignOut(a.frame, a.leaving("")))
}

// removeJob draws the page that takes a job off this phone. A helper has one job, so that is signing out.
func removeJob(a *ask) *Reply {
	if a.Visitor.Role != job.Owner {
		return a.goes(address.SignOut.Path(), "")
	}
	return a.draw("Remove from this phone", view.RemoveJob(a.frame, a.leaving(a.job.ID)))
}

// stay answers a form that leaves where nobody takes it: phone and server do that themselves, before they ask here.
func stay(a *ask) *Reply { return a.goes(address.Phone.Path(), "Nothing was changed.") }

func (a *ask) leaving(job string) view.Leaving {
	if a.Leaving == nil {
		return view.Leaving{}
	}
	return a.Leaving(job)
}

// unsentFile gives what this phone has not handed in.
func unsentFile(a *ask) *Reply {
	if a.Unsent == nil {
		return a.notFound()
	}
	reply := a.draw("Not handed in", nil)
	reply.File = &File{Name: "not-handed-in.json", Mime: "application/json", Data: a.Unsent(a.in.Get("job"))}
	return reply
}
