package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// FieldLabel is the field for a device's name.
const FieldLabel = "label"

// unusedMS is how long a device is not seen until it is folded away.
const unusedMS = 30 * 24 * 60 * 60 * 1000

// OwnDevice is a device of the visitor. Times are in Unix milliseconds.
type OwnDevice struct {
	ID, Name   string // the person's name
	Label      string // the device's name; empty: it has none
	Made, Seen int64
	Ended      int64 // 0: it has access
	Installed  bool  // an app installed from another of the devices
	This       bool  // the one that asks
}

func (d OwnDevice) title() string { return orElse(d.Label, orElse(d.Name, "Unnamed device")) }

// unused reports whether the device has ended or was not seen for a month.
func (d OwnDevice) unused(now int64) bool { return !d.This && (d.Ended > 0 || now-d.Seen >= unusedMS) }

// Devices draws the visitor's devices and the way into the installed app. The server alone draws it.
func Devices(f Frame, devices []OwnDevice) g.Node {
	var this OwnDevice
	var others []OwnDevice
	for _, d := range devices {
		if d.This {
			this = d
		} else {
			others = append(others, d)
		}
	}
	return g.Group{
		Heading("", LabelDevices),
		Columns(g.Group{
			Panel("The installed app", "", h.ID("installed"),
				Soft("Does it ask who you are? Type a code there: it opens as you."),
				appCodeForm()),
			Panel("This device", "", h.ID("this-device"),
				h.P(g.Text(this.title())),
				nameDevice(f, this.ID, this.Label, true)),
		}, g.Group{
			g.Iff(len(others) > 0, func() g.Node { return otherDevices(f, others) }),
		}),
		h.P(PlainLink(address.Phone.Path(), "back", "This phone")),
	}
}

func otherDevices(f Frame, devices []OwnDevice) g.Node {
	help := "Lost one? Ask the owner to end your link."
	if f.Owns() {
		help = endingHelp
	}
	return Panel("Others", "", h.ID("own-devices"), Soft(help), deviceList(f, devices, address.EndOwn.Path(), true))
}

const endingHelp = "End one that is lost or given away. What it still sends then waits here for you. Apps installed " +
	"from it end too."

// shareDevices draws the owner's devices on the page of a job's links.
func shareDevices(f Frame, devices []OwnDevice) g.Node {
	return Panel(LabelDevices, "", h.ID("own-devices"),
		Soft(endingHelp),
		deviceList(f, devices, f.at(address.EndDevice), false),
		LinkBelow(address.Devices.Path(), "phone", "Name them", g.Attr("data-server")),
		h.H3(g.Text("Another device of yours")),
		Soft("Opens all your jobs on another device. The link works once, for a short time."),
		shareForm("share-owner", f.at(address.OwnerLink), Submit(Plain, Icon("phone"), g.Text(labelMakeLink))))
}

// deviceList lists devices, those that nobody uses folded away.
func deviceList(f Frame, devices []OwnDevice, end string, naming bool) g.Node {
	var used, unused g.Group
	for _, d := range devices {
		row := deviceRow(f, d, end, naming)
		if d.unused(f.Now) {
			unused = append(unused, row)
		} else {
			used = append(used, row)
		}
	}
	return g.Group{
		g.If(len(used) > 0, List(used)),
		g.If(len(unused) > 0,
			Disclosure("set", "Ended or unused for a month: "+number(len(unused)), h.ID("unused-devices"), List(unused))),
	}
}

// deviceRow draws a device with a button that ends its access, where the owner looks at another device of theirs.
func deviceRow(f Frame, d OwnDevice, end string, naming bool) g.Node {
	return SplitRow(domID("device", d.ID),
		[]g.Node{RowTitle(d.title()), Small(deviceLine(f, d)), g.If(naming && f.Owns(), nameDevice(f, d.ID, d.Label, false))},
		g.If(f.Owns() && !d.This && d.Ended == 0,
			shareForm(domID("end-device", d.ID), end,
				Hidden(ShareDevice, d.ID),
				Submit(Quiet, g.Text("End "+d.title())))))
}

func deviceLine(f Frame, d OwnDevice) string {
	line := "signed in " + f.Stamp(d.Made)
	if d.Installed {
		line = "installed app, " + line
	}
	if d.Label != "" && d.Name != "" {
		line = d.Name + ", " + line
	}
	switch {
	case d.This:
		return line + ", this device"
	case d.Ended > 0:
		return line + ", ended " + f.Stamp(d.Ended)
	}
	return line + ", seen " + Ago(f.Now, d.Seen)
}

// linkDevices lists the devices that joined by a helper link, for the owner to tell them apart.
func linkDevices(f Frame, l Link) g.Node {
	if len(l.Devices) == 0 {
		return nil
	}
	return Disclosure("set", Many(len(l.Devices), "device"), g.Map(l.Devices, func(d LinkDevice) g.Node {
		return h.Div(h.Class("rowtext"), RowTitle(orElse(d.Label, "Unnamed device")),
			Small("seen "+Ago(f.Now, d.Seen)), nameDevice(f, d.ID, d.Label, false))
	}))
}

// nameDevice draws the form for a device's name, folded unless it is open.
func nameDevice(f Frame, id, label string, open bool) g.Node {
	field := domID("label", id)
	form := PostForm(ByServer, domID("name-device", id), address.NameDevice.Path(),
		Hidden(ShareDevice, id),
		Hidden(FieldThen, f.Path),
		FieldBox(field, "Name of the device", "", h.Input(h.ID(field), h.Type("text"), h.Name(FieldLabel), h.Value(label),
			h.Required(), h.MaxLength("60"), h.AutoComplete("off"))),
		Submit(Plain, g.Text("Save the name")))
	if open {
		return form
	}
	return Disclosure("set", "Rename", form)
}
