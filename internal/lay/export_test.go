package lay

// Kinds are the findings of this package, for the test of their wording.
var Kinds = kinds

// HandKinds are those of lays written down.
var HandKinds = handKinds

// RepeatKinds are those of cloth that repeats.
var RepeatKinds = repeatKinds
