package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// share draws the helper links, where the caller has them: on the server.
func share(a *ask) Reply {
	if a.Links != nil {
		if links, here := a.Links(a.job.ID); here {
			return a.draw("Share", view.Share(a.frame, a.sharing(links, form.State{Values: form.Values{}, Errors: map[string]string{}})))
		}
	}
	reply := a.draw("Share", view.ShareOffline(a.frame))
	reply.Status = statusAway
	return reply
}

func (a *ask) sharing(links []view.Link, state form.State) view.SharePage {
	p := view.SharePage{Links: links, State: state, Fresh: a.Fresh}
	if a.Held != nil {
		p.Held = a.Held(a.job.ID)
	}
	return p
}

// shareAct is answered by the server before it comes here: making and ending links needs its secrets. What is wrong with
// the form for a new link is said here, so that it is said in one place.
func shareAct(a *ask) Reply {
	if a.stars[1] == "new" && a.Links != nil {
		if _, state := ReadLink(a.in, a.Now); !state.OK() {
			links, _ := a.Links(a.job.ID)
			return a.wrong("Share", view.Share(a.frame, a.sharing(links, state)))
		}
	}
	reply := a.draw("Share", view.ShareOffline(a.frame))
	reply.Status = statusAway
	return reply
}

// LinkWish is a helper link that the owner asks for.
type LinkWish struct {
	Name string
	Role job.Role
	Ends int64 // Unix ms, the end of the last day in UTC plus half a day, so that it is over everywhere; 0: no end
}

// ReadLink reads the form for a new link. What is wrong stands in the state.
func ReadLink(v form.Values, now int64) (LinkWish, form.State) {
	n := job.Noun{Name: "link", Label: "Link", Fields: []job.Field{
		{Name: view.ShareName, Label: "Name", Kind: job.Text, Max: 60, Required: true},
		{Name: view.ShareRole, Label: "What they may do", Kind: job.OneOf, Choices: []job.Choice{{Value: string(job.Helper)}, {Value: string(job.Lead)}}},
		{Name: view.ShareEnds, Label: "Ends after", Kind: job.Day},
	}}
	_, state := form.Entity(n, "link/x", []string{view.ShareName, view.ShareRole, view.ShareEnds}, v, "")
	wish := LinkWish{Name: strings.TrimSpace(v.Get(view.ShareName)), Role: job.Role(v.Get(view.ShareRole))}
	if wish.Role == "" {
		wish.Role = job.Helper
	}
	if day, ok := job.ParseMoment(strings.TrimSpace(v.Get(view.ShareEnds)) + "T00:00"); ok && state.OK() {
		wish.Ends = (day.Minutes() + 36*60) * 60_000
		if wish.Ends <= now {
			state.Fail(view.ShareEnds, "Ends after must be today or later.")
		}
	}
	return wish, state
}
