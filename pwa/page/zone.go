package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// startZone returns the time zone of a new job: the phone's, else that of the latest job with one.
func (r *request) startZone() string {
	if r.Zone != "" {
		return r.Zone
	}
	for _, row := range r.rows() {
		if j, found := r.findJob(row.ID); found && j.Brief.Zone != "" {
			return j.Brief.Zone
		}
	}
	return ""
}

// zoneChanges returns the change to the time zone that the browser filled in. It ignores an unknown zone, because
// nobody typed it.
func (r *request) zoneChanges() []job.Change {
	zone := strings.TrimSpace(r.in.Get("zone"))
	change := job.Put("brief", "zone", zone)
	if zone == "" || !r.knowsZone(zone) || job.CheckChange(change) != nil {
		return nil
	}
	return []job.Change{change}
}

// knowsZone reports whether the zone is known.
func (r *request) knowsZone(zone string) bool {
	if r.LocalMinutes == nil {
		return true
	}
	_, known := r.LocalMinutes(zone, r.Now)
	return known
}

// checkZone fails the field of an unknown time zone that was typed in a brief.
func (r *request) checkZone(state *form.State) {
	zone := strings.TrimSpace(r.in.Get("zone"))
	if zone != "" && r.in.Get("zone") != r.in.Get(form.Was("zone")) && state.Errors["zone"] == "" && !r.knowsZone(zone) {
		state.Fail("zone",
			"Unknown time zone. Write region and city, such as Europe/Lisbon, or leave it empty.")
	}
}
