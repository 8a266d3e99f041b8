"""Every sentence a reader sees. Sizes come from the edition; nothing is counted here."""
