package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
	"garlandry/pwa/form"
)

// Names of the inputs of the import page.
const (
	ImportText = "text" // pasted
	ImportFile = "file" // the text of the file picked
)

// Import draws the page that imports a job file, pasted or picked.
func Import(f Frame, state form.State) g.Node {
	id, wrong := domID("f", ImportText), state.Errors[ImportText]
	return g.Group{
		Heading("", LabelImport),
		Lead("It becomes a new job. Your other jobs stay as they are."),
		PostForm(ByCore, "import", address.Import.Path(), h.Class("edit"), h.EncType("multipart/form-data"),
			PartOf("", "",
				FieldBox("f-file", "The file", "",
					h.Input(h.ID("f-file"), h.Name(ImportFile), h.Type("file"), h.Accept(".json,application/json"))),
				FieldBox(id, "Or paste its text", "",
					h.Textarea(h.ID(id), h.Name(ImportText), h.Rows("6"), g.Attr("spellcheck", "false"),
						g.Attr("autocapitalize", "off"), invalid(id, wrong), g.Text("\n"+state.Get(ImportText))),
					bad(wrong),
					h.P(h.Class("help"), g.Text(`Starts with {"garlandry": 1, ...`)),
					wrongLine(id, wrong, h.Role("alert")))),
			Foot("Import")),
	}
}
