package answer

// Version of firstbolt, as SemVer; ./dev release reads it from here.
const Version = "0.1.0"

// Commit of the source, written by the linker (./dev build); empty where it was not.
var Commit string

// Schema names the shape of the answers. Its number rises only when a change breaks readers of the old shape.
const Schema = "firstbolt/answer/1"
