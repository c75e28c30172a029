"""The pages of one question: what to do, over time, for the patient, recall, for the case discussion."""
