package page

import (
	"errors"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// exportFile returns the job as a file. It holds the client's contact, because only the owner can open this.
func exportFile(r *request) *Reply {
	data, err := job.EncodeFile(r.job)
	if err != nil {
		return r.trouble("No file", "The job file could not be written: "+err.Error()+".", "Try again.")
	}
	reply := r.draw(r.title(), nil)
	reply.File = &File{Name: slug(r.job.Brief.Title, 60) + ".job.json", Mime: "application/json", Data: data}
	return reply
}

func importPage(r *request) *Reply {
	return r.draw(view.LabelImport, view.Import(r.frame, form.NewState()))
}

// importFile makes a new job from a job file, picked or pasted.
func importFile(r *request) *Reply {
	text := r.in.Get(view.ImportFile)
	if strings.TrimSpace(text) == "" {
		text = r.in.Get(view.ImportText)
	}
	changes, err := job.DecodeFile([]byte(text))
	if strings.TrimSpace(text) == "" {
		err = errors.New("pick a job file, or paste its text")
	}
	if err == nil && len(changes) == 0 {
		err = errors.New("there is no job in the file; it needs at least a brief with a title")
	}
	if err == nil {
		err = plan.CheckSizes(job.Preview(changes))
	}
	if err != nil {
		state := form.NewState()
		state.Values.Set(view.ImportText, text)
		state.Fail(view.ImportText, importSays(err))
		return r.invalid(view.LabelImport, view.Import(r.frame, state))
	}
	title := job.Preview(changes).Brief.Title
	if title == "" {
		title = "The job"
	}
	return r.create(changes, title+" is imported.")
}

// importSays returns an error of a job file with its place.
func importSays(err error) string {
	if field, is := errors.AsType[*job.FieldError](err); is {
		return capitalized(field.Path) + ": " + field.Message
	}
	return capitalized(err.Error())
}
