// Package answer holds what firstbolt says, before any format: one struct for each command, filled once by ask and
// written out by the views. The structs are the contract with scripts: answer.schema.json is made from them, a test
// holds the two together, and every answer in the tests validates against it.
//
// Money is a whole number of minor units with its currency; benefit is in whole ten-thousandths of a point. What is
// not known is null, never 0 or absent; lists are never null. Nothing here is worked out from anything else but the
// exit code.
package answer
