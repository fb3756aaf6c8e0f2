package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
)

// Jobs draws the list of jobs. Away is how many are put away, behind a link.
func Jobs(f Frame, rows []JobRow, away int) g.Node {
	if len(rows) == 0 {
		return these(
			Heading("", "Jobs"),
			Empty(
				"No job yet",
				"A job is one event to decorate, from the promise to the take-down. You say what and when; Garlandry counts, packs and deals out the work.",
				"For example: a door garland, 8 ft wide, three colours, doors at eleven.",
				g.If(f.Owns(), these(ButtonLink("/new", "go", g.Text("Start a job")))),
			),
			g.If(f.Owns(), jobFile()),
			awayLink(away),
			offLink(f.Device.Off),
		)
	}
	return these(
		Heading("", "Jobs", g.If(f.Owns(), ButtonLink("/new", "go", fixed("{plus}New job")))),
		el(`ul class="list"`, each(len(rows), func(i int) g.Node { return jobRow(rows[i]) })),
		awayLink(away),
		offLink(f.Device.Off),
		g.If(f.Owns(), jobFile()),
	)
}

// Away draws the jobs that were put away, each with a button to take it out again.
func Away(f Frame, rows []JobRow) g.Node {
	if len(rows) == 0 {
		return these(
			Heading("", "Put away"),
			Empty("Nothing put away", "A job that is over can be put away: it leaves the list but nothing of it is lost.",
				"Its counts stay here for the next one like it.", ButtonLink("/", "", g.Text("Back to the jobs"))),
		)
	}
	return these(
		Heading("", "Put away"),
		el(`ul class="list"`, each(len(rows), func(i int) g.Node {
			r := rows[i]
			return html(`<li id="$" class="split">{}
				{}</li>`, texts{domID("job", r.ID)},
				jobLink(r),
				g.If(f.Owns(), html(`<form method="post" action="/jobs/$/back" id="$" data-core>
					<button type="submit">Take out</button></form>`, texts{r.ID, domID("back", r.ID)})))
		})),
	)
}

func awayLink(away int) g.Node {
	if away == 0 {
		return nothing
	}
	return html(`<p class="below"><a class="plainlink" href="/away">{away}$ put away</a></p>`, texts{strconv.Itoa(away)})
}

func jobRow(r JobRow) g.Node {
	if r.Aside {
		return asideRow(r)
	}
	return html(`<li id="$">{}</li>`, texts{domID("job", r.ID)}, jobLink(r))
}

func jobLink(r JobRow) g.Node {
	href := "/jobs/" + r.ID
	if r.HelperName != "" {
		href += "/next"
	}
	right := ""
	if r.Total > 0 {
		right = strconv.Itoa(r.Done) + " of " + strconv.Itoa(r.Total)
	}
	return html(`<a class="row jobrow" href="$">
		<span class="rowtext"><span class="rowtitle">$</span><span class="soft">$</span>
			{}
			{}</span>
		{}
		{open}</a>`, texts{href, untitled(r.Title), r.when()},
		g.If(r.Waiting > 0, html(`<span class="waits">{wait}$ wait on this phone</span>`, texts{strconv.Itoa(r.Waiting)})),
		g.If(len(r.Colours) > 0, swatches(r.Colours)),
		g.If(right != "", html(`<span class="rowfigure">$<span class="soft unit">cards done</span></span>`, texts{right})))
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

func untitled(title string) string {
	if strings.TrimSpace(title) == "" {
		return "Untitled job"
	}
	return title
}

// swatches draws the first colours of a palette in a row, named for screen readers.
func swatches(colours []job.Colour) g.Node {
	shown := colours[:min(len(colours), 8)]
	names := make([]string, len(shown))
	for i, c := range shown {
		names[i] = c.Name
	}
	return html(`<span class="swatches"><span class="vh">Colours: $</span>{}</span>`, texts{strings.Join(names, ", ")},
		each(len(shown), func(i int) g.Node { return Swatch(shown[i]) }))
}

// jobFile leads to the page that takes in a job file.
func jobFile() g.Node {
	return fixed(`<p class="below"><a class="plainlink" href="/import">{jobs}Take in a job file</a></p>`)
}
