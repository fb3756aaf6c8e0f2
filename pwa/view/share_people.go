package view

import (
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/pwa/address"
)

// SharePerson is somebody of the crew who may get a link.
type SharePerson struct{ ID, Name string }

// sameName reports whether two names are one person's, whatever their case and the spaces around them.
func sameName(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

// linkOf returns the person's link: an open one if there is one, else the newest.
func (p SharePage) linkOf(f Frame, name string) (found Link, linked bool) {
	for _, l := range p.Links {
		if sameName(l.Name, name) && (!linked || found.over(f.Now) && !l.over(f.Now)) {
			found, linked = l, true
		}
	}
	return found, linked
}

// over reports whether the link no longer opens the job.
func (l Link) over(now int64) bool { return l.Revoked || l.Ends > 0 && l.Ends <= now }

// otherLinks lists the links of people who are not of the crew.
func (p SharePage) otherLinks() []Link {
	var others []Link
	for _, l := range p.Links {
		crew := false
		for _, person := range p.People {
			crew = crew || sameName(l.Name, person.Name)
		}
		if !crew {
			others = append(others, l)
		}
	}
	return others
}

// sharePeople draws the crew: who has a link, and one tap that makes one for whoever has none.
func sharePeople(f Frame, p SharePage) g.Node {
	if len(p.People) == 0 {
		return nil
	}
	return Panel("Your crew", "", h.ID("share-crew"), List(g.Map(p.People, func(person SharePerson) g.Node {
		link, linked := p.linkOf(f, person.Name)
		if linked && !link.over(f.Now) {
			return linkRow(f, link)
		}
		state := "No link yet"
		if linked {
			state = linkLine(f, link)
		}
		return SplitRow(domID("person", person.ID), []g.Node{RowTitle(person.Name), Small(state)},
			shareForm(domID("link-for", person.ID), f.at(address.NewLink),
				Hidden(ShareName, person.Name),
				Hidden(ShareRole, string(job.Helper)),
				Submit(Plain, Icon("share"), g.Text("Make a link for "+person.Name))))
	})))
}
