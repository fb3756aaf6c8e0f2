package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

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
	return g.Group{
		Heading("", "Take in a job file"),
		txt(`p class="lead"`, "A job file holds one job with its pieces, colours and what was done. It becomes a new job; nothing you have is changed."),
		el(`form id="import" class="edit" method="post" action="/import" enctype="multipart/form-data" data-core`,
			el(`div class="panel part"`, el(`div class="fields"`,
				el(`div class="field"`, txt(`label for="f-file"`, "The file"),
					el(`input id="f-file"`, h.Name(ImportFile), h.Type("file"), h.Accept(".json,application/json"))),
				el(`div class="field"`, g.If(wrong != "", g.Attr("data-bad")), el("label", h.For(id), g.Text("or its text")),
					el("textarea", h.ID(id), h.Name(ImportText), h.Rows("6"), g.Attr("spellcheck", "false"), g.Attr("autocapitalize", "off"),
						g.If(wrong != "", g.Group{h.Aria("invalid", "true"), h.Aria("describedby", id+"-error")}), g.Text("\n"+state.Get(ImportText))),
					txt(`p class="help"`, `It begins with {"garlandry": 1, ...`),
					g.If(wrong != "", el(`p class="wrong"`, h.ID(id+"-error"), h.Role("alert"), Icon("care"), txt("span", wrong)))))),
			Foot("Take it in")),
	}
}
