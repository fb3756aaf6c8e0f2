// Package rng is a source of numbers that look random and are the same on
// every machine: phone (wasm) and server must draw the same plan and the same
// odds from the same seed.
//
// Only sums, products, quotients and square roots are used, and products are
// rounded before they are added, so that no compiler may fuse them; the standard
// library's exp and log are left alone because they are written in assembly for
// some machines and may differ in the last bit.
//
// The package knows nothing of tasks or minutes. Start at New and Named.
package rng
