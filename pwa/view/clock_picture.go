package view

import (
	"garlandry/app/forecast"
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/task"
)

const (
	laneHeight = 46 // of one person's row, with the name above the blocks
	laneTop    = 22 // above the first row: the words of the band
	lastTime   = 87 // percent of the width after which an hour's time has no room on a phone
)

// clockPicture draws a day: people as rows, cards as blocks with their numbers in the table below, the doors as a line,
// and between the half and the nine in ten a band. Positions are shares of the width, so that words keep their size.
func clockPicture(c *forecast.Forecast, tasks []*forecast.Task) g.Node {
	from, to := tasks[0].Start, tasks[0].End
	for _, t := range tasks {
		to = max(to, t.End)
	}
	theDay := tasks[0].Place != task.TakeDown && from/dayLong == c.Doors/dayLong
	if theDay {
		to = min(max(to, c.Doors, c.Ninety), from+dayLong) + 6
	}
	from -= from % 30
	share := func(minute int) string { return figure(float64(minute-from)*100/float64(to-from), 2) + "%" }
	rows, people := lanes(c, tasks, theDay)
	height := laneTop + laneHeight*people
	line := func(class string, at int) g.Node {
		return g.El("line", h.Class(class), g.Attr("x1", share(at)), g.Attr("x2", share(at)),
			g.Attr("y1", strconv.Itoa(laneTop-4)), g.Attr("y2", strconv.Itoa(height+4)))
	}
	word := func(class string, at, y int, text string) g.Node {
		return g.El("text", h.Class(class), g.Attr("x", share(at)), g.Attr("y", strconv.Itoa(y)), g.Text(text))
	}
	var drawn []g.Node
	if theDay && c.Ninety > c.Half {
		drawn = append(drawn, g.El("rect", h.Class("band"), g.Attr("x", share(c.Half)),
			h.Width(share(from+c.Ninety-c.Half)), g.Attr("y", strconv.Itoa(laneTop-4)),
			h.Height(strconv.Itoa(height-laneTop+8))))
	}
	drawn = append(drawn, hours(c, from, to, height, line, word)...)
	for i := range c.People {
		if rows[i] >= 0 {
			drawn = append(
				drawn,
				g.El("text", h.Class("who"), g.Attr("x", "0"),
					g.Attr("y", strconv.Itoa(laneTop+rows[i]*laneHeight+13)), g.Text(c.People[i].Name)),
			)
		}
	}
	for number, t := range tasks {
		for _, s := range t.Spells {
			drawn = append(
				drawn,
				clockBlock(t, share(s.From), share(from+s.To-s.From), share((s.From+s.To)/2), laneTop+rows[s.Person]*laneHeight+18,
					number+1, (s.To-s.From)*100/(to-from)),
			)
		}
	}
	if theDay {
		class := "doors"
		if c.Doors-from > (to-from)/2 {
			class = "doors end"
		}
		drawn = append(drawn, line("doors", c.Doors), word(class, c.Doors, 12, "doors "+Clock(c.At(c.Doors))))
	}
	return g.Group{
		h.SVG(h.Class("clockpicture"), h.Width("100%"), h.Height(strconv.Itoa(height+24)),
			h.Aria("hidden", "true"), g.Attr("focusable", "false"), g.Group(drawn)),
		g.If(theDay,
			h.P(h.Class("soft legend"), h.Aria("hidden", "true"),
				g.Text("Filled: on the critical path. Band: likely finish."))),
	}
}

// lanes gives each person a row from 0, or -1: those who have something to do, and on the day everybody. It returns how
// many rows there are.
func lanes(c *forecast.Forecast, tasks []*forecast.Task, theDay bool) (rows []int, people int) {
	rows = make([]int, len(c.People))
	for i := range rows {
		on := theDay
		for _, t := range tasks {
			for _, s := range t.Spells {
				on = on || s.Person == i
			}
		}
		if rows[i] = -1; on {
			rows[i] = people
			people++
		}
	}
	return rows, people
}

// hours draws a line and a time for every full hour, or for every second or fourth where there are many. An hour at the
// right edge gets no time: it would be cut, or stand on the one before.
func hours(c *forecast.Forecast, from, to, height int, line func(class string, at int) g.Node,
	word func(class string, at, y int, text string) g.Node) []g.Node {
	var drawn []g.Node
	step := 60
	for to-from > 6*step {
		step *= 2
	}
	for at := from + (step-from%step)%step; at < to; at += step {
		drawn = append(drawn, line("hour", at))
		if (at-from)*100 <= (to-from)*lastTime {
			drawn = append(drawn, word("hour", at, height+18, Clock(c.At(at))))
		}
	}
	return drawn
}

const dayLong = 24 * 60

// clockBlock draws a card on a person's row; its number in the middle where there is room.
func clockBlock(t *forecast.Task, x, width, middle string, y, number, percent int) g.Node {
	return g.El("g", g.If(decides(t), g.Attr("data-critical")),
		g.El("rect", h.Class("card"), g.Attr("x", x), h.Width(width), g.Attr("y", strconv.Itoa(y)), h.Height("26"),
			g.Attr("rx", "5")),
		g.Iff(percent >= 6, func() g.Node {
			return g.El("text", g.Attr("x", middle), g.Attr("y", strconv.Itoa(y+18)), h.Class("number"),
				g.Text(strconv.Itoa(number)))
		}))
}
