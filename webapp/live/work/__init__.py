"""What a shop does and keeps beside a project: pieces ticked off, glue-ups, hours, claims on the rack, its prices."""
