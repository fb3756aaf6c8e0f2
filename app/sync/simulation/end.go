package simulation

import (
	"fmt"
	"strings"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
)

// end stops the faults, lets everybody exchange, and checks the result.
func (w *world) end() error {
	w.wire, w.calm = nil, true
	w.note("the faults stop")
	if err := w.stopFaults(); err != nil {
		return err
	}
	if err := w.settle(); err != nil {
		return err
	}
	if err := w.server.Accept(jobID, w.serverNow()); err != nil {
		return err
	}
	if err := w.settle(); err != nil {
		return err
	}
	for _, log := range w.logs() {
		recs, err := w.server.Recs(log)
		if err != nil {
			return err
		}
		for _, check := range []func(string, []job.Rec) error{w.nothingLost, w.nothingTwice, w.converged, w.tallies,
			w.order, w.allAllowed} {
			if err := check(log, recs); err != nil {
				return fmt.Errorf("log %s: %w", log, err)
			}
		}
	}
	return nil
}

// stopFaults frees every storage, has each running tab read it, and leaves one tab per phone running.
func (w *world) stopFaults() error {
	for _, ph := range w.phones {
		ph.disk.full = false
		for _, t := range ph.tabs {
			if t.phone == nil || t.token == ph.disk.token {
				continue
			}
			if err := w.load(t); err != nil {
				return err
			}
		}
		for _, t := range ph.tabs {
			w.kill(t)
		}
	}
	for _, ph := range w.phones {
		if err := w.open(ph.tabs[0]); err != nil {
			return err
		}
	}
	return w.err
}

// settle exchanges without faults until nobody has anything to send.
func (w *world) settle() error {
	for range 200 {
		busy := false
		for _, ph := range w.phones {
			for _, log := range ph.logs {
				w.time += 1000
				moved, err := w.exchange(ph.tabs[0], log)
				if err != nil {
					return err
				}
				busy = busy || moved
			}
		}
		if w.err != nil {
			return w.err
		}
		if !busy {
			return nil
		}
	}
	var standing []string
	for _, ph := range w.phones {
		for _, log := range ph.logs {
			standing = append(standing, fmt.Sprintf("%s %s %+v", ph.name, log, w.status(ph, log)))
		}
	}
	return fmt.Errorf("phones and server never settle: %s", strings.Join(standing, "; "))
}

// exchange does one exchange and reports whether it moved anything.
func (w *world) exchange(t *tab, log string) (bool, error) {
	if err := w.open(t); err != nil {
		return false, err
	}
	if err := w.ready(t, log); err != nil {
		return false, err
	}
	req, ok := t.phone.Request(log, w.time+t.on.clock)
	if !ok {
		return false, nil
	}
	req = w.sabotage(req)
	if len(req.Heal) > 0 {
		w.note("phone %s heals %s: %s", t.on.name, log, healText(req.Heal))
	}
	m := message{tab: t, log: log, req: req}
	resp, err := w.serve(m)
	if err != nil {
		return false, err
	}
	m.answer = &resp
	if _, err := w.storeAnswer(m); err != nil || t.phone == nil {
		return true, err
	}
	if err := w.ready(t, log); err != nil {
		return false, err
	}
	return resp.Rewound || len(resp.Recs) > 0 || len(resp.Acks) > 0 || t.phone.Behind(log), nil
}

func (w *world) status(ph *device, log string) phone.Status {
	if ph.tabs[0].phone == nil {
		return phone.Status{}
	}
	return ph.tabs[0].phone.Status(log)
}
