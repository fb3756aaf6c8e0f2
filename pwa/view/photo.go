package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Names of inputs that come with a new photo, beside its fields.
const (
	FieldPhoto  = "photo"  // the file
	FieldMean   = "mean"   // its mean colour: "120 99 80"
	FieldShared = "shared" // it is shared at once
)

// OnPhoto is how many balloons are drawn over a photo at most.
const OnPhoto = onCover

// photoUnits is how many units of its picture a pixel of a photo is, for coordinates in whole numbers.
const photoUnits = 4.0

// photoURL is where a photo's bytes are: the phone's service worker answers with what the phone keeps.
func photoURL(f Frame, p *job.Photo) string { return address.PhotoFile.Path(f.JobID, p.Hash) }

// PhotoList draws the photos of a job and the form that adds one. Wrong says why the last one was not added, if so.
func PhotoList(f Frame, j job.Job, photos []job.Photo, wrong string) g.Node {
	var rows g.Group
	for i := range photos {
		p := &photos[i]
		rows = append(rows, h.Li(h.A(h.Class("row"), h.Href(f.at(address.Photo, p.ID)),
			h.SVG(h.Class("photothumb"), g.Attr("viewBox", "0 0 72 56"), decorative(), g.El("image", h.Href(photoURL(f, p)),
				h.Width("72"), h.Height("56"), g.Attr("preserveAspectRatio", "xMidYMid slice"))),
			RowText(p.Name, Small(photoState(p))), Icon("open"))))
	}
	return g.Group{
		jobHeading(j, LabelPhotos),
		g.If(rows == nil, Empty("No photo yet",
			"Your balloons on the wall, to scale, before you blow one up.", "", nil)),
		g.If(rows != nil, ListPanel(rows)),
		g.Iff(f.Edits(), func() g.Node { return newPhoto(f, wrong) }),
	}
}

func photoState(p *job.Photo) string {
	state := "Only on the phone that took it"
	if p.Shared {
		state = "Shared with the crew"
	}
	if p.PXPerMM() == 0 {
		state += " · not to scale yet"
	}
	return state
}

// newPhoto draws the form that adds a photo. The page's script makes and keeps the photo on the phone and fills in the
// second form; without it the first goes to the server.
func newPhoto(f Frame, wrong string) g.Node {
	const id = "f-photo"
	return Panel("Add a photo", "", h.ID("new-photo"),
		PostForm(ByServer, "send-photo", f.at(address.SendPhoto), h.Class("edit"), h.EncType("multipart/form-data"),
			FieldBox(id, "Take or choose one", wrong,
				h.Input(h.ID(id), h.Name(FieldPhoto), h.Type("file"), h.Accept("image/*"), h.Required(), invalid(id, wrong),
					h.Data("photo-px", strconv.Itoa(job.MostPhotoPX)), h.Data("photo-bytes", strconv.Itoa(job.MostPhotoBytes)),
					h.Data("photo-at", address.PhotoFile.Path(f.JobID, "")))),
			h.Div(g.Attr("data-photo-plain"), Soft("It is sent to the server and shared with the crew at once."),
				Foot("Add and share"))),
		PostForm(ByCore, "add-photo", f.at(address.Photos),
			g.Map([]string{"name", "hash", "type", "bytes", "width_px", "height_px", FieldMean},
				func(name string) g.Node { return Hidden(name, "") })),
		h.Div(g.Attr("data-photo-kept"), g.Attr("hidden"), Soft("It stays on this phone until you share it.")))
}

// PhotoPage draws a photo with balloons over it, and for those who may change it its form. The look may be nil.
func PhotoPage(f Frame, j job.Job, p job.Photo, over *look.Look, e Editor) g.Node {
	scale := p.PXPerMM()
	says := "Photo"
	if scale > 0 && over != nil {
		says = "Photo with the balloons over it, to scale"
	}
	picture := g.Group{
		h.Div(h.Class("cover"), onPhoto(f, &p, over, says)),
		Hints(g.Attr("data-photo-missing"), g.Attr("hidden"),
			Hint("care", "This photo is not on this phone. It comes once it is shared and there is signal.")),
		g.Iff(f.Edits() && scale == 0, func() g.Node {
			return Hints(Hint("next", "Tap two points on the wall, then type what is between them."))
		}),
		g.If(scale > 0 && over == nil, Hints(Hint("next", "There is no piece to draw yet."))),
	}
	if !f.Edits() {
		return g.Group{jobShades(j), jobHeading(j, p.Name), picture}
	}
	to := f.at(address.Photo, p.ID)
	form := EditForm("edit-photo", to, to,
		WrongList(e.Noun, e.State, ""),
		restoring(e.State, ""),
		PartOf("", "", e.fields(f, "distance_mm"), photoPiece(e), e.fields(f, "name")),
		Folded("photo-places", "Points, place and light", false, e.fields(f, e.Fields[3:]...)),
		Foot(labelSave))
	return g.Group{jobShades(j), jobHeading(j, p.Name), Columns(picture, g.Group{
		form, sharePhoto(f, &p, to),
		ButtonRow(g.If(scale > 0, sendPicture(p.Name)),
			ActForm("remove-photo", to, "remove", p.ID, Plain, Icon("cut"), g.Text("Remove this photo"))),
	})}
}

// photoPiece draws the field that picks the piece, or all of them.
func photoPiece(e Editor) g.Node {
	field, _ := e.Noun.Field("piece")
	input := Field{Field: *field, Typed: e.State.Values, Errors: e.State.Errors}
	return input.line(input.picker(append([]job.Choice{{Value: "", Label: "All pieces"}}, e.Options["piece"]...)))
}

// sharePhoto says who has the photo, with the button that changes it.
func sharePhoto(f Frame, p *job.Photo, to string) g.Node {
	if !p.Shared {
		return Panel("Only on this phone", "", Soft("Sharing sends it to the server. Everybody on this job sees it."),
			ActForm("share-photo", to, "share", p.ID, Plain, Icon("share"), g.Text("Share with the crew")))
	}
	return Panel("Shared with the crew", "",
		Hints(h.Data("photo-waits", photoURL(f, p)), g.Attr("hidden"), Hint("wait", "1 photo waits to be sent.")),
		ActForm("share-photo", to, "unshare", p.ID, Quiet, g.Text("Stop sharing")))
}

// onPhoto draws a look over a photo, and the two points between which the wall was measured.
func onPhoto(f Frame, p *job.Photo, over *look.Look, says string) g.Node {
	wide, high := float64(p.WidthPX)*photoUnits, float64(p.HeightPX)*photoUnits
	at := front{}
	var balloons g.Node
	if place, known := placed(p, over); known {
		balloons = g.El("g", g.Attr("filter", "url(#photolight)"), h.Data("drag", "at"), (&Front{}).at(&place, over))
	}
	return h.SVG(h.Class("front wall"), h.Role("img"), h.Aria("label", says),
		g.Attr("viewBox", "0 0 "+at.n(wide)+" "+at.n(high)),
		g.El("image", h.Data("photo", p.ID), h.Href(photoURL(f, p)), h.Width(at.n(wide)), h.Height(at.n(high))),
		lit(p.Light), balloons,
		g.Iff(f.Edits(), func() g.Node { return photoPoints(f, p, wide, high) }))
}

// placed returns how a look lies on a photo, in units of its picture: to the photo's scale, with its middle and its
// foot at the photo's place for them. It is not known without a scale or a look.
func placed(p *job.Photo, over *look.Look) (front, bool) {
	scale := p.PXPerMM() * photoUnits
	if scale == 0 || over == nil || len(over.Balloons) == 0 {
		return front{}, false
	}
	foot := over.BottomMM
	if over.Stands {
		foot = 0
	}
	return front{scale: scale,
		left: (over.LeftMM+over.RightMM)/2 - p.AtXPct/100*float64(p.WidthPX)*photoUnits/scale,
		top:  foot + float64(p.AtYPct/100*float64(p.HeightPX)*photoUnits/scale)}, true
}

// lit defines how bright balloons are on a photo of a lightness L*. Cameras expose a usual scene to the grey that sends
// back 18 % of the light, which is L* 49.5 (CIE 15): there balloons look as they are. The slope is common practice, no
// source: half a balloon's brightness is the room's.
func lit(light float64) g.Node {
	slope := figure(min(1.2, max(0.5, 0.5+light/100)), 2)
	channel := func(name string) g.Node {
		return g.El(name, g.Attr("type", "linear"), g.Attr("slope", slope))
	}
	return g.El("filter", h.ID("photolight"), g.Attr("color-interpolation-filters", "sRGB"),
		g.El("feComponentTransfer", channel("feFuncR"), channel("feFuncG"), channel("feFuncB")))
}

// photoPoints draws the two points with a line and what is between them. A script lets them be dragged.
func photoPoints(f Frame, p *job.Photo, wide, high float64) g.Node {
	n := (&front{}).n
	large := max(wide, high)
	x1, y1 := p.FirstXPct/100*wide, p.FirstYPct/100*high
	x2, y2 := p.SecondXPct/100*wide, p.SecondYPct/100*high
	point := func(name, label string, x, y float64) g.Node {
		return g.El("g", h.Data("drag", name),
			disc(n(x), n(y), n(large/16), h.Class("grip")),
			disc(n(x), n(y), n(large/110), h.Class("point")),
			g.El("text", g.Attr("x", n(x)), g.Attr("y", n(y-large/45)), g.Attr("font-size", n(large/32)), g.Text(label)))
	}
	return g.El("g", h.Class("points"),
		g.El("path", g.Attr("d", "M"+n(x1)+" "+n(y1)+"L"+n(x2)+" "+n(y2))),
		g.If(p.DistanceMM > 0, g.El("text", g.Attr("x", n((x1+x2)/2)), g.Attr("y", n((y1+y2)/2+large/22)),
			g.Attr("font-size", n(large/32)), g.Text(measure.FormatLength(p.DistanceMM, f.Units)))),
		point("first", "1", x1, y1), point("second", "2", x2, y2))
}
