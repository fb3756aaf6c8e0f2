package page

import (
	"errors"
	"strings"

	"garlandry/app/job"
	"garlandry/pwa/form"
)

// plainMessage returns the text of an error for the person who caused it.
func plainMessage(err error) string {
	if field, is := errors.AsType[*job.FieldError](err); is {
		return field.Message
	}
	return form.Plainly(err)
}

// capitalized returns the text with a capital first letter.
func capitalized(text string) string {
	if text == "" {
		return text
	}
	runes := []rune(text)
	return strings.ToUpper(string(runes[:1])) + string(runes[1:])
}
