package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// JoinForm is what was typed on the join page and what is wrong with it.
type JoinForm struct {
	Name, Code           string
	NameError, CodeError string
	Owner                bool // an invitation for a phone of the owner, who may leave the name empty
}

// The names of the join form's fields. Token is filled from the link by the phone's script; Code is typed by hand.
const (
	FieldName  = "name"
	FieldToken = "token"
	FieldCode  = "code"
)

// Join draws the page that a helper link opens: a name to type and what the link lets them do.
func Join(f Frame, typed JoinForm) g.Node {
	if typed.Owner {
		return joinAsOwner(typed)
	}
	return html(`<div class="narrow">
		{}
		<form method="post" action="/j" id="join" data-server class="panel">
			{}
			<input type="hidden" name="$" data-from-fragment>
			<details class="set"{}><summary>Type the code by hand</summary>{}</details>
			<noscript><p class="help">Scripts are off on this phone: open the line above and type the part of your link after the # sign.</p></noscript>
			<button type="submit" class="go">Join</button></form>
		{}</div>`, texts{FieldToken},
		Heading("Somebody could use your hands", "Help with a job"),
		joinName(typed, h.Required()),
		set(typed.CodeError != "" || typed.Code != "", "open"),
		joinCode(typed), joinMeans())
}

// joinAsOwner draws the page of an invitation for another phone of the owner.
func joinAsOwner(typed JoinForm) g.Node {
	return html(`<div class="narrow">
		{}
		<form method="post" action="/j?as=owner" id="join" data-server class="panel">
			<p>This link gives this phone all that you may do: jobs, prices, client contacts, settings. It works once.</p>
			{}
			<input type="hidden" name="$" data-from-fragment>
			<details class="set"{}><summary>Type the code by hand</summary>{}</details>
			<button type="submit" class="go">Open my jobs here</button></form></div>`, texts{FieldToken},
		Heading("Your own jobs", "Open them on this phone"),
		joinName(typed),
		set(typed.CodeError != "" || typed.Code != "", "open"),
		joinCode(typed))
}

// Scan draws the page for somebody who holds a picture of a code, or a code on paper.
func Scan(f Frame, typed JoinForm) g.Node {
	return html(`<div class="narrow">
		{}
		{}
		<form method="post" action="/j" id="scan" data-server class="panel">
			{}{}<button type="submit" class="go">Join</button></form>
		{}</div>`, nil,
		Heading("", "Join with a code"),
		Panel("", "", html(`<ol class="steps">
			<li>$</li>
			<li>Tap the link it shows.</li>
			<li>No square code? Paste the link, or type the code, below.</li></ol>`, texts{"Open this phone's own camera and point it at the square code."})),
		joinName(typed, h.Required()), joinCode(typed), joinMeans())
}

func joinName(typed JoinForm, needed ...g.Node) g.Node {
	return textInput("join-name", FieldName, "Your name", "It stands beside what you tick, so that the others know.",
		typed.Name, typed.NameError, h.AutoComplete("given-name"), h.MaxLength("60"), attr("enterkeyhint", "go"),
		g.Group(needed))
}

func joinCode(typed JoinForm) g.Node {
	return textInput("join-code", FieldCode, "Code or link", "The part of the link after the # sign, or the whole link.",
		typed.Code, typed.CodeError, h.AutoComplete("off"), attr("autocapitalize", "off"), attr("spellcheck", "false"))
}

// textInput draws one text field with label, help and error, outside of a job's fields.
func textInput(id, name, label, help, value, wrong string, more ...g.Node) g.Node {
	described := id + "-help"
	if wrong != "" {
		described += " " + id + "-error"
	}
	return html(`<div class="field"{}>
		<label for="$">$</label>
		<input id="$" type="text" name="$" value="$" aria-describedby="$"{}{}>
		<p class="help" id="$-help">$</p>
		{}</div>`, texts{id, label, id, name, value, described, id, help},
		bad(wrong),
		g.If(wrong != "", h.Aria("invalid", "true")),
		g.Group(more),
		wrongLine(id, wrong))
}

func joinMeans() g.Node {
	return Panel("What the link lets you do", "", fixed(`<ul class="hints">
		<li>{tick}<span>See the cards, the pack list and the counts of one job, and tick and count with the others.</span></li>
		<li>{tick}<span>Go on without signal: what you tick is kept on this phone and shared when signal is back.</span></li>
		<li>{phone}<span>No account. Nothing else on this phone is read or shared.</span></li></ul>`))
}

// JoinEnded draws the page for a link that does not open anything any more.
func JoinEnded(f Frame) g.Node {
	return Trouble("This link has ended", "It was for a time, or was taken back by whoever runs the job.",
		"What you ticked with it is kept.", "Ask for a new link, or type a new code.", "/scan", "Type a code")
}
