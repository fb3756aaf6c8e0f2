package sync

import "errors"

// ErrResponse marks an answer that cannot come from a sound server. Nothing was changed; try again later.
var ErrResponse = errors.New("answer of the server not valid")
