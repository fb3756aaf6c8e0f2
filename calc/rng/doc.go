// Package rng draws random numbers from a seed. They are the same on every machine: the phone (wasm) and the server
// must find the same plan and the same odds. Package exact says what that takes.
//
// Start at New and Named.
package rng
