// Package device is what the phone does: it opens what is stored, answers the page's questions with the same pages as
// the server, writes what is ticked and typed as operations, and exchanges them with the server.
//
// It is a state machine that one goroutine drives through [Run]; storage, network, page and clock are behind the small
// interfaces [Disk], [Wire] and [Page], so that tests drive it without a browser. Nothing is shown as saved before it
// is on the phone's disk, and the network never stands between a tap and its answer.
package device
