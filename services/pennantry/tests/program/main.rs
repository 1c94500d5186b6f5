//! The program against a real server.
