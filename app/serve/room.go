package serve

import (
	"slices"

	"garlandry/app/store"
	"garlandry/pwa/view"
)

// room tells who wrote how much of a job, the most first.
func (s *Server) room(id string, links []store.Link) ([]view.RoomUse, error) {
	filled, err := s.Store.FilledBy(id)
	if err != nil {
		return nil, err
	}
	crowding := filled.Crowding()
	var room []view.RoomUse
	for link, use := range filled.Links {
		row := view.RoomUse{Link: link, Ops: int(use.Ops), Bytes: use.Bytes, InHour: int(filled.Hour[link].Ops), Crowded: slices.Contains(crowding, link)}
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
