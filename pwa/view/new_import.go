package view

import (
	g "maragu.dev/gomponents"

	"garlandry/pwa/form"
)

// Names of the inputs of the import page.
const (
	ImportText = "text" // pasted
	ImportFile = "file" // the text of the file picked
)

// Import draws the page that takes in a job file, pasted or picked.
func Import(f Frame, state form.State) g.Node {
	id, wrong := domID("f", ImportText), state.Errors[ImportText]
	return these(
		Heading("", "Take in a job file"),
		txt(
			`p class="lead"`,
			"A job file holds one job with its pieces, colours and what was done. It becomes a new job; nothing you have is changed.",
		),
		html(`<form id="import" class="edit" method="post" action="/import" enctype="multipart/form-data" data-core>
			<div class="panel part"><div class="fields">
					<div class="field"><label for="f-file">The file</label>
						<input id="f-file" name="$" type="file" accept=".json,application/json"></div>
					<div class="field"{}><label for="$">or its text</label>
						<textarea id="$" name="$" rows="6" spellcheck="false" autocapitalize="off"{}>$</textarea>
						<p class="help">$</p>
						{}</div></div></div>
			{}</form>`, texts{ImportFile, id, id, ImportText, "\n" + state.Get(ImportText), `It begins with {"garlandry": 1, ...`},
			bad(wrong),
			invalid(id, wrong),
			g.If(wrong != "", html(`<p class="wrong" id="$-error" role="alert">{care}<span>$</span></p>`, texts{id, wrong})),
			Foot("Take it in")),
	)
}
