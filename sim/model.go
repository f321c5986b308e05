package sim

// Model is the number of the model: of everything that makes the same readings at the same ticks do the same. It rises with any
// change after which a digest of before differs, so that a take of another model is never taken for a damaged one. A take that
// names no number is of model 1.
const Model = 3
