package form

import (
	"errors"
	"net/url"
)

// ErrQuery means that an address has a broken escape, or a semicolon where only & is allowed.
var ErrQuery = errors.New("this address cannot be read")

// ParseQuery reads the query of an address. It returns no values with an error.
func ParseQuery(query string) (Values, error) {
	values, err := url.ParseQuery(query)
	if err != nil {
		return nil, ErrQuery
	}
	return Values(values), nil
}

// ParsePath reads the escaped path of an address.
func ParsePath(path string) (string, error) {
	text, err := url.PathUnescape(path)
	if err != nil {
		return "", ErrQuery
	}
	return text, nil
}

// Query writes the values as the query of an address, in the order of their names.
func (v Values) Query() string { return url.Values(v).Encode() }
