package view

import (
	g "maragu.dev/gomponents"
)

// ShareSince says from when on what came by a link is set aside.
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
		return nothing
	}
	return html(
		`<p class="below"><a href="$#room" id="to-room" data-server>{care}<span>A link sends very much. See who, and stop it.</span></a></p>`,
		texts{f.at("share")},
	)
}

// roomPanel shows who filled the job. It stands open when somebody is near a limit.
func roomPanel(f Frame, room []RoomUse) g.Node {
	if len(room) == 0 {
		return nothing
	}
	crowded := false
	for _, u := range room {
		crowded = crowded || u.Crowded && u.Open
	}
	return Folded(
		"room",
		"Who wrote how much",
		crowded,
		g.If(
			crowded,
			txt(`p class="delta"`,
				"A link sends very much. If that is not right, end it: what others did stays, and you always have room."),
		),
		el(`ul class="list inset" id="room-list"`, each(len(room), func(i int) g.Node { return roomRow(f, room[i]) })),
	)
}

func roomRow(f Frame, u RoomUse) g.Node {
	name := orElse(u.Name, "A link")
	if u.Link == "" {
		name = "You"
	}
	line := Many(u.Ops, "change") + ", " + bytesWords(u.Bytes)
	if u.InHour > 0 {
		line += ", " + number(u.InHour) + " in this hour"
	}
	if u.Link != "" && !u.Open {
		line += ", link ended"
	}
	return html(
		`<li class="split"><div class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span>{}</div>{}</li>`,
		texts{name, line},
		g.Iff(u.Link != "" && u.Ops > 0, func() g.Node { return asideLink(f, u, name) }),
		g.If(
			u.Crowded && u.Open,
			shareForm(domID("room-end", u.Link), f.at("share/end"), Hidden(ShareLink, u.Link),
				txt(`button type="submit"`, "End "+name+"’s link")),
		),
	)
}

// asideLink sets aside what came by a link, which ends with it.
func asideLink(f Frame, u RoomUse, name string) g.Node {
	id := domID("room-since", u.Link)
	return html(
		`<details class="set"><summary>Set aside what $ did</summary>
		<form id="$" method="post" action="$" data-server>{}
			<p class="soft">It stops counting on every phone, and the link ends. It stays on record.</p>
			<label for="$">What came</label>
			<select id="$" name="$"><option value="$">in the last hour</option><option value="$">in the last day</option><option value="$">ever by this link</option></select>
			<button type="submit">Set aside</button></form></details>`,
		texts{name, domID("room-aside", u.Link), f.at("share/room"), id, id, ShareSince, SinceHour, SinceDay, SinceEver},
		Hidden(ShareLink, u.Link),
	)
}
