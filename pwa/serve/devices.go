package serve

import (
	"net/http"

	"garlandry/app/job"
	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// devicesPage lists a person's devices, with the way into the installed app.
func (s *Server) devicesPage(c echo.Context) error {
	session, _ := sessionOf(c)
	if session.Closed != "" {
		return errClosed
	}
	devices, err := s.devicesOf(session)
	if err != nil {
		return err
	}
	f := s.frame(c, view.LabelDevices)
	return s.render(c, http.StatusOK, f, view.Devices(f, devices))
}

// devicesOf lists the devices of the session's person.
func (s *Server) devicesOf(session store.Session) ([]view.OwnDevice, error) {
	if session.Role == job.Owner {
		return s.ownDevices(session)
	}
	links, err := s.Store.Links(session.Job)
	if err != nil {
		return nil, err
	}
	var own []view.OwnDevice
	for _, l := range links {
		for _, d := range l.Devices {
			name := orElse(d.Name, l.Name)
			if l.ID == session.Link && name == session.Name && !d.Closed {
				own = append(own, view.OwnDevice{ID: d.Session, Name: name, Label: d.Label, Made: d.Joined, Seen: d.Seen,
					Installed: d.Installed, This: d.Session == session.ID})
			}
		}
	}
	return own, nil
}

// ownDevices lists the owner's devices that have access, and those that lost it in the last month.
func (s *Server) ownDevices(session store.Session) ([]view.OwnDevice, error) {
	const endedShown = 30 * 24 * 60 * 60 * 1000
	all, err := s.Store.OwnerDevices()
	if err != nil {
		return nil, err
	}
	var shown []view.OwnDevice
	for _, d := range all {
		if d.Closed == "" || s.nowMS()-d.ClosedAt < endedShown {
			shown = append(
				shown,
				view.OwnDevice{ID: d.ID, Name: d.Name, Label: d.Label, Made: d.Created, Seen: d.Seen, Ended: d.ClosedAt,
					Installed: d.From != "", This: d.ID == session.ID},
			)
		}
	}
	return shown, nil
}

// endDevice ends the access of another of the owner's devices. The device in use cannot end itself, so the owner cannot
// lock themselves out.
func (s *Server) endDevice(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	id := in.Get(view.ShareDevice)
	if id == session.ID {
		return errOwnDevice
	}
	if err := s.Store.EndDevice(c.Request().Context(), session, id); err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.DeviceEnded, Device: id})
	to := address.Devices.Path()
	if c.Param("job") != "" {
		to = address.Share.Path(c.Param("job"))
	}
	return s.seeOther(c, to, "Ended the device’s access.", nil)
}

// nameDevice gives a device another name.
func (s *Server) nameDevice(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	err = s.Store.NameDevice(c.Request().Context(), session, in.Get(view.ShareDevice), in.Get(view.FieldLabel))
	if err != nil {
		return err
	}
	to := address.Devices.Path()
	if then, known := address.Parse(in.Get(view.FieldThen)); known && then.Page == address.Share {
		to = address.Share.Path(then.Job)
	}
	return s.seeOther(c, to, "Named the device.", nil)
}

// nameByBrowser names a device that has no name by what its browser says it is. A device without a name works as well.
func (s *Server) nameByBrowser(c echo.Context, session store.Session) {
	label := deviceWords(c.Request().UserAgent())
	if label == "" || session.Label != "" || session.Closed != "" {
		return
	}
	if err := s.Store.NameDevice(c.Request().Context(), session, session.ID, label); err != nil {
		s.Log.Error("device not named", "err", err)
	}
}
