package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// ShareSince is the field that says how far back to set aside what came by a link; the others are its values.
const (
	ShareSince = "since"
	SinceHour  = "hour"
	SinceDay   = "day"
	SinceEver  = "ever"
)

// RoomUse is how much of a job somebody has written.
type RoomUse struct {
	Link    string // id; empty for the owner
	Name    string
	Ops     int
	Bytes   int64
	InHour  int  // operations in this hour
	Crowded bool // near a limit
	Open    bool // the link can still be used
}

// crowdedLine tells the owner, on the job's first page, that a link has nearly used up its room.
func crowdedLine(f Frame) g.Node {
	if !f.Crowded {
		return nil
	}
	return LinkBelow(f.at(address.Share)+"#room", "care", "A link sends very much. See who",
		h.ID("to-room"), g.Attr("data-server"))
}

// roomPanel shows who wrote how much. It is open when somebody is near a limit.
func roomPanel(f Frame, room []RoomUse) g.Node {
	if len(room) == 0 {
		return nil
	}
	crowded := false
	for _, u := range room {
		crowded = crowded || u.Crowded && u.Open
	}
	return Folded("room", "Who wrote how much", crowded,
		g.If(crowded,
			Notice(Changed, "care", "A link sends very much. If that is wrong, end it. The others’ work stays.")),
		List(h.ID("room-list"), g.Map(room, func(u RoomUse) g.Node { return roomRow(f, u) })),
	)
}

func roomRow(f Frame, u RoomUse) g.Node {
	name := orElse(u.Name, "A link")
	if u.Link == "" {
		name = "You"
	}
	line := Many(u.Ops, "change") + ", " + bytesWords(u.Bytes)
	if u.InHour > 0 {
		line += ", " + number(u.InHour) + " this hour"
	}
	if u.Link != "" && !u.Open {
		line += ", link ended"
	}
	return SplitRow("", []g.Node{
		RowTitle(name),
		Small(line),
		g.Iff(u.Link != "" && u.Ops > 0, func() g.Node { return asideLink(f, u, name) }),
	},
		g.If(u.Crowded && u.Open,
			shareForm(domID("room-end", u.Link), f.at(address.EndLink),
				Hidden(ShareLink, u.Link),
				Submit(Plain, g.Text("End "+name+"’s link")))))
}

// asideLink draws the form that sets aside what came by a link and ends the link.
func asideLink(f Frame, u RoomUse, name string) g.Node {
	id := domID("room-since", u.Link)
	return Disclosure("set", "Set aside what "+name+" did",
		PostForm(ByServer, domID("room-aside", u.Link), f.at(address.LinkRoom),
			Hidden(ShareLink, u.Link),
			Soft("Stops counting on every phone, and ends the link."),
			h.Label(h.For(id), g.Text("Sent")),
			h.Select(h.ID(id), h.Name(ShareSince),
				h.Option(h.Value(SinceHour), g.Text("in the last hour")),
				h.Option(h.Value(SinceDay), g.Text("in the last day")),
				h.Option(h.Value(SinceEver), g.Text("at any time"))),
			Submit(Plain, g.Text("Set aside"))))
}
