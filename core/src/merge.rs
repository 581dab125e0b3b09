//! Taking files in: what is new, what is here, what differs, and one result in any order.
