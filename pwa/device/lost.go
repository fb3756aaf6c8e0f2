package device

import (
	"encoding/json"
	"slices"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync"
	"garlandry/app/sync/phone"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// logsOf lists the logs of a job, or all logs for "", those of earlier visitors included.
func (c *Core) logsOf(id string) []string {
	var logs []string
	for _, log := range c.phone.Logs() {
		if id == "" || strings.TrimSuffix(log, sync.OwnSuffix) == id {
			logs = append(logs, log)
		}
	}
	return logs
}

// losses lists what would be lost if the job, or everything for "", were removed from this phone now. It omits
// titles of jobs that this visitor may not see.
func (c *Core) losses(id string) []view.Loss {
	var found []view.Loss
	var of []string // job of each loss
	for _, log := range c.logsOf(id) {
		unsent, heals := c.phone.WouldLose(log)
		if unsent == 0 && !heals {
			continue
		}
		s, jobID := c.phone.Status(log), strings.TrimSuffix(log, sync.OwnSuffix)
		i := slices.Index(of, jobID)
		if i < 0 {
			i = len(found)
			of = append(of, jobID)
			found = append(found, view.Loss{Title: c.titleFor(jobID), Other: !c.mine(log) || s.Parked > 0})
		}
		changes := s.Changes + s.Parked
		if unsent > 0 {
			changes = max(changes, 1)
		}
		found[i].Changes += changes
		found[i].Ticks += s.Ticks
		found[i].Heals = found[i].Heals || heals
	}
	if id == "" && c.unposted > 0 {
		found = append(found, view.Loss{Forms: c.unposted})
	}
	return found
}

func (c *Core) titleFor(id string) string {
	if !c.mine(id) {
		return ""
	}
	if j, there := c.job(id); there {
		return j.Brief.Title
	}
	return c.asideRow(id).Title
}

// leavingFor returns the state of leaving, for its page.
func (c *Core) leavingFor(id string) view.Leaving {
	v := view.Leaving{Lost: c.losses(id), Last: c.me.Role == job.Owner && c.me.Last}
	if l := c.leaving; l != nil && l.job == id {
		v.Handing, v.Stuck = l.stuck == "", l.stuck
	}
	for _, n := range c.phone.Notes() {
		refused := n.Kind == phone.NoteDenied || n.Kind == phone.NoteInvalid
		if refused && c.mine(n.Log) && (id == "" || strings.TrimSuffix(n.Log, sync.OwnSuffix) == id) {
			v.Refused++
		}
	}
	return v
}

// leavingUnknown draws the sign-out page before the server has said who the person is.
func (c *Core) leavingUnknown(number int, path string) Drawing {
	w := c.deps()
	f := view.Frame{Title: "Sign out", Path: path, Role: job.Role(c.Role), Device: w.Device, Now: w.Now, Scripts: true}
	d := c.drawing(number, path, page.Reply{Frame: f, Title: f.Title, Body: view.SignOut(f, c.leavingFor(""))})
	c.shown = "" // this is not the page itself, so it cannot be "gone"
	return d
}

// unsentFile writes the unsent changes of a job, or of all jobs for "": each with a description and its operation. It
// omits those of earlier visitors.
func (c *Core) unsentFile(id string) []byte {
	type change struct {
		What string `json:"what"`
		Op   job.Op `json:"op"`
	}
	type part struct {
		Log     string   `json:"log"`
		Title   string   `json:"title"`
		Changes []change `json:"changes"`
	}
	file := struct {
		Version int    `json:"garlandry_unsent"`
		Phone   string `json:"phone"`
		Name    string `json:"name"`
		At      int64  `json:"at"` // Unix ms, by the phone's clock
		Jobs    []part `json:"jobs"`
	}{1, c.phone.Device(), c.me.Name, c.Now(), []part{}}
	for _, log := range c.logsOf(id) {
		ops := c.phone.Unsent(log)
		if len(ops) == 0 || !c.mine(log) {
			continue
		}
		title, say := c.describer(log)
		p := part{Log: log, Title: title}
		for _, op := range ops {
			p.Changes = append(p.Changes, change{say(op), op})
		}
		file.Jobs = append(file.Jobs, p)
	}
	text, err := json.Marshal(file)
	if err != nil { // cannot happen: the operations were read from JSON
		return nil
	}
	return append(text, '\n')
}
