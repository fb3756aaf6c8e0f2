package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// startZone is the time zone that a new job begins with: the phone's, else that of the latest job with one.
func (a *ask) startZone() string {
	if a.Zone != "" {
		return a.Zone
	}
	for _, row := range a.rows() {
		if j, found := a.findJob(row.ID); found && j.Brief.Zone != "" {
			return j.Brief.Zone
		}
	}
	return ""
}

// zoneChanges takes in the time zone that the browser filled in. One that is not known here is left out: nobody typed
// it.
func (a *ask) zoneChanges() []job.Change {
	zone := strings.TrimSpace(a.in.Get("zone"))
	change := job.Put("brief", "zone", zone)
	if zone == "" || !a.knowsZone(zone) || job.CheckChange(change) != nil {
		return nil
	}
	return []job.Change{change}
}

// knowsZone reports whether times can be written in the zone.
func (a *ask) knowsZone(zone string) bool {
	if a.LocalMinutes == nil {
		return true
	}
	_, known := a.LocalMinutes(zone, a.Now)
	return known
}

// checkZone says so if the time zone that was typed in a brief is not known.
func (a *ask) checkZone(state *form.State) {
	zone := strings.TrimSpace(a.in.Get("zone"))
	if zone != "" && a.in.Get("zone") != a.in.Get(form.Was("zone")) && state.Errors["zone"] == "" && !a.knowsZone(zone) {
		state.Fail("zone",
			"No such time zone is known here. Write a region and a city, such as Europe/Lisbon, or leave it empty.")
	}
}
