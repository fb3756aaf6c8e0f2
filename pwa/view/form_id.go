package view

// FormID is the id of a form that a person types into. A page is not drawn over while one of its forms would go.
type FormID string

// NewEntryForm is the form for a new entry of a list.
const NewEntryForm FormID = "form-add"

// EntryForm returns the id of the form of an entry of a list.
func EntryForm(id string) FormID { return FormID(domID("form", id)) }

// Forms lists the forms of the page.
func (p ListPage) Forms() []FormID {
	var forms []FormID
	for _, item := range p.Items {
		forms = append(forms, EntryForm(item.ID))
	}
	return append(forms, NewEntryForm)
}
