// Package lpsolve solves programs with lp_solve 5.5 through golp: a second opinion on what the exact engine proves. It
// takes a program and gives a solution whose cash and benefit are reckoned in whole numbers from the chosen options;
// which of several equal sets it chooses is its own affair.
//
// lp_solve is there only in builds with the tag lpsolve and cgo; elsewhere Available is false and Solve says so. By
// default it runs in a child process (package child), because it knows no time limit, cannot be interrupted, and golp
// can crash the process. This package alone imports golp.
//
// What was measured of lp_solve 5.5.2.5, and what is done about it:
//   - It called 90 of 49,841 answers optimal that were not (values near 1,000,000 that almost tie), and none of 12,000
//     when the objective was multiplied by 2^-10, exact in binary: the objective is scaled down by a power of two. What
//     stays is why this engine confirms and does not prove.
//   - The finalizer of golp can free the model while C still solves it: runtime.KeepAlive.
//   - Without SetObjFn the row-entry mode stays on and the heap breaks: it is always called.
//   - A column named twice wipes its row, an empty row or a model without columns panics, NaN rows are ignored: a
//     program.Linear has none of these, and the finished model's rows and columns are counted.
//   - A row is met within about 1e-7 of its size, so from about 10,900,000 on it may be overrun by one: what exceeds
//     5,000,000 is refused (TooLargeError).
//   - Presolve shifts columns against their numbers: it stays off. Values mean something on OPTIMAL only, and are read
//     only then.
package lpsolve
