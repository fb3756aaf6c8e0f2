// Package device is the app on the phone. It opens the storage, answers the page's requests with the same pages as the
// server, stores what people tick and type as operations, and exchanges them with the server.
//
// One goroutine runs it: [Core.Run]. Storage, network and page are behind the small interfaces [Disk], [Wire] and
// [Page], so tests need no browser. Nothing is shown as saved before it is on the phone's disk, and no tap waits for
// the network.
package device
