package serve

import (
	"slices"
	"time"

	"garlandry/app/seclog"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// room returns how much of a job each author wrote, the most first.
func (s *Server) room(id string, links []store.Link) ([]view.RoomUse, error) {
	filled, err := s.Store.FilledBy(id)
	if err != nil {
		return nil, err
	}
	crowding := filled.LinksNearLimit()
	var room []view.RoomUse
	for link, use := range filled.Links {
		row := view.RoomUse{Link: link, Ops: int(use.Ops), Bytes: use.Bytes, InHour: int(filled.Hour[link].Ops),
			Crowded: slices.Contains(crowding, link)}
		for _, l := range links {
			if l.ID == link {
				row.Name, row.Open = l.Name, l.Revoked == 0 && l.Ends > s.nowMS()
			}
		}
		room = append(room, row)
	}
	slices.SortFunc(room, func(a, b view.RoomUse) int {
		if a.Bytes != b.Bytes {
			return int(min(1, max(-1, b.Bytes-a.Bytes)))
		}
		return slices.Compare([]byte(a.Link), []byte(b.Link))
	})
	return append(room, view.RoomUse{Ops: int(filled.Owner.Ops), Bytes: filled.Owner.Bytes}), nil
}

// setLinkAside ends a helper link of this job, if it is open, and sets aside what came through it.
func (s *Server) setLinkAside(c echo.Context) error {
	session, _ := sessionOf(c)
	in, err := posted(c)
	if err != nil {
		return err
	}
	id, ctx := in.Get(view.ShareLink), c.Request().Context()
	const hour = int64(time.Hour / time.Millisecond)
	since, known := map[string]int64{view.SinceHour: s.nowMS() - hour, view.SinceDay: s.nowMS() - 24*hour,
		view.SinceEver: 0}[in.Get(view.ShareSince)]
	links, err := s.Store.Links(c.Param("job"))
	if err != nil {
		return err
	}
	if !known || !slices.ContainsFunc(links, func(l store.Link) bool { return l.ID == id }) {
		return errNotFound
	}
	if err := s.Store.RevokeLink(ctx, session, id); err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.LinkEnded, Job: c.Param("job"), Link: id})
	count, err := s.Store.SetLinkAside(ctx, session, c.Param("job"), id, since, "All that came by this link")
	if err != nil {
		return err
	}
	s.note(c, seclog.Event{What: seclog.SetAside, Job: c.Param("job"), Link: id, N: count})
	return s.seeOther(c, address.Share.Path(c.Param("job"))+"#room", "Set aside "+view.Many(count, "change")+".", nil)
}
