// Package json stands in for encoding/json when the on-device core is built, for what the app uses of it and no more: the
// real one costs the phone several times as much. What [Marshal] writes is byte for byte what the real one writes, since
// hashes and seals are computed over it on both ends; what [Unmarshal] takes, refuses and stores is the same too. The
// server and the command line use the real one; tests hold the two against each other.
//
// It refuses to know, with an error that says so: texts in base64 for []byte, map keys other than texts, embedded
// pointers, and tag options other than omitempty. Field names match whatever their case in ASCII letters. Numbers
// as text, tokens, decoders of other than a [bytes.Reader] and HTML escaping turned off are left out, so that code which
// asks for them does not compile.
//
// Start at [Marshal] in encode.go and [Unmarshal] in decode.go; shape.go tells what is remembered of a type, scan.go what
// JSON is, layout.go how values are reached without reflect.
package json
