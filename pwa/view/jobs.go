package view

import (
	"fmt"
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
)

// Jobs draws the list of jobs. Archived is how many more the archive holds.
func Jobs(f Frame, rows []JobRow, archived int) g.Node {
	if len(rows) == 0 {
		return g.Group{
			Heading("", "Jobs"),
			Empty("No job yet",
				"A job is one event to decorate. Say what and when; Garlandry counts, packs and shares out the work.",
				measure.InUnits("Example: a door garland, 8 ft wide, three colours, doors at eleven.", f.Units),
				g.If(f.Owns(), ButtonLink(address.New.Path(), Primary, g.Text("Start a job")))),
			g.If(f.Owns(), importLink()),
			archiveLink(archived),
			deletedLink(f),
			offLink(f.Device.Off),
		}
	}
	return g.Group{
		Heading("", "Jobs", g.If(f.Owns(), ButtonLink(address.New.Path(), Primary, Icon("plus"), g.Text("New job")))),
		findField(f, "a job", len(fittingJobs(f, rows)), len(rows), screenfulOfJobs),
		ListPanel(g.Map(fittingJobs(f, rows), jobRow)),
		archiveLink(archived),
		deletedLink(f),
		offLink(f.Device.Off),
		g.If(f.Owns(), importLink()),
	}
}

// Archive draws the archived jobs, each with a button to restore it.
func Archive(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 {
		return g.Group{
			Heading("", labelArchive),
			Empty("Nothing archived",
				"Archive a job that is over. It leaves the list and nothing is lost.", "",
				ButtonLink(address.Home.Path(), Plain, g.Text("Back to jobs"))),
		}
	}
	return g.Group{
		Heading("", labelArchive),
		findField(f, "a job", len(fittingJobs(f, rows)), len(rows), screenful),
		ListPanel(g.Map(fittingJobs(f, rows), func(r JobRow) g.Node {
			return h.Li(h.ID(domID("job", r.ID)), h.Class("split"),
				jobLink(r),
				g.If(f.Owns(),
					PostForm(ByCore, domID("back", r.ID), address.Unarchive.Path(r.ID),
						Submit(Plain, g.Text(labelRestore)))))
		})),
	}
}

// fittingJobs returns the jobs that fit what was searched for: title, venue, date and colours.
func fittingJobs(f Frame, rows []JobRow) []JobRow {
	var fitting []JobRow
	for _, row := range rows {
		texts := []string{untitled(row.Title), row.when(), row.Date}
		for _, c := range row.Colours {
			texts = append(texts, c.Name)
		}
		if f.Finder.Fits(texts...) {
			fitting = append(fitting, row)
		}
	}
	return fitting
}

func archiveLink(archived int) g.Node {
	if archived == 0 {
		return nil
	}
	return LinkBelow(address.Archive.Path(), "away", fmt.Sprintf("%d archived", archived))
}

func jobRow(r JobRow) g.Node {
	if r.Aside {
		return asideRow(r)
	}
	return h.Li(h.ID(domID("job", r.ID)), jobLink(r))
}

func jobLink(r JobRow) g.Node {
	href := address.Job.Path(r.ID)
	if r.HelperName != "" {
		href = address.Next.Path(r.ID)
	}
	right := ""
	if r.Total > 0 {
		right = strconv.Itoa(r.Done) + " of " + strconv.Itoa(r.Total)
	}
	return h.A(h.Class("row jobrow"), h.Href(href), jobCover(r),
		RowText(untitled(r.Title),
			Small(besideTitle(r.when(), r.Title, r.Date)),
			g.If(r.Waiting > 0, NoticeInRow(Waits, "wait", fmt.Sprintf("%d not shared yet", r.Waiting))),
			g.If(len(r.Colours) > 0, ForReaders("Colours: "+colourNames(r.Colours)))),
		g.If(right != "", RowFigure(right, "cards done")),
		Icon("open"))
}

func (r JobRow) when() string {
	parts := []string{}
	if r.Date != "" {
		parts = append(parts, Day(r.Date))
	}
	if clock := Clock(r.Doors); clock != "" {
		parts = append(parts, "doors "+clock)
	}
	if r.Venue != "" {
		parts = append(parts, r.Venue)
	}
	if len(parts) == 0 {
		return "No date yet"
	}
	return strings.Join(parts, " · ")
}

// besideTitle returns what [JobRow.when] says for a place beside the title, with the weekday alone if the title ends
// with the day.
func besideTitle(when, title, date string) string {
	day, known := job.ParseMoment(date + "T00:00")
	if !known || !strings.HasSuffix(title, ", "+TitleDay(date)) {
		return when
	}
	return strings.Replace(when, Day(date), day.Format("Monday"), 1)
}

func untitled(title string) string {
	if strings.TrimSpace(title) == "" {
		return "Untitled job"
	}
	return title
}

// jobCover draws the largest pieces of a job small, or a plain shape. While they are not drawn yet, the page's script
// shows what it saw of the same design, see covers.js.
func jobCover(r JobRow) g.Node {
	if r.Archived {
		return nil
	}
	return h.Span(h.Class("thumbnail"), h.Data("cover", strconv.FormatUint(r.Design, 36)),
		g.If(r.Later, h.Data("later", "")),
		Front{Look: r.Cover, Small: true, flat: true}.Draw())
}

// Cover computes the picture of a job for its row. It calls pause between steps that take a while.
func Cover(p *plan.Plan, pause func()) *look.Look { return p.Cover(inRow, pause) }

// colourNames lists the first colours of a palette.
func colourNames(colours []job.Colour) string {
	shown := colours[:min(len(colours), 8)]
	names := make([]string, len(shown))
	for i, c := range shown {
		names[i] = c.Name
	}
	return strings.Join(names, ", ")
}

// importLink leads to the page that imports a job file.
func importLink() g.Node {
	return LinkBelow(address.Import.Path(), "jobs", LabelImport)
}
