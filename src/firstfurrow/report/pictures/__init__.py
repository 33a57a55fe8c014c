"""Pictures of a plan: each a drawing with sentences that say the same."""
